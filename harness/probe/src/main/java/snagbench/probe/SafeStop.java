package snagbench.probe;

import snagbench.wire.StopReason;

/**
 * The machine's safe stop, which the control code defines: what is safe hangs on the machine (a lift may have to hold
 * its load). It must do without the probe's told readings where it can, and drive its outputs past the probe.
 */
public interface SafeStop {
    /**
     * Begins the safe stop. Called at the end of a tick; the control code carries it out in the ticks that follow.
     *
     * @param reason why
     */
    void stop(StopReason reason);

    /**
     * Tells whether the machine has come to its safe state. Asked at the end of each tick from then on; overrides stay
     * until it has.
     *
     * @return true when it stands safe
     */
    boolean isStopped();
}
