package snagbench.probe;

import snagbench.wire.ResetCause;

/** What the greeting tells of the controller and its build. */
public final class Controller {
    final String build;
    final int bootId;
    final ResetCause cause;
    final boolean real;
    final int tickMicros;

    /**
     * Sets all of it.
     *
     * @param build names the control code's build, up to 12 bytes in UTF-8
     * @param bootId another one after each restart, not 0; it must not live in RAM alone
     * @param cause why the controller started
     * @param real true if it moves something real
     * @param tickMicros loop time in microseconds where it is fixed, else 0
     * @throws IllegalArgumentException if the build's name is too long or the boot id is 0
     */
    public Controller(String build, int bootId, ResetCause cause, boolean real, int tickMicros) {
        ChannelSpec.requireLength("build", build, 0, snagbench.wire.Wire.LONGEST_BUILD);
        if (bootId == 0) {
            throw new IllegalArgumentException("boot id 0 stands for none");
        }
        this.build = build;
        this.bootId = bootId;
        this.cause = cause;
        this.real = real;
        this.tickMicros = tickMicros;
    }
}
