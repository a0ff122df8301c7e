package snagbench.probe;

import snagbench.wire.Timing;

/**
 * Lets an intermittent entry through and holds it back by turns. The next edge is counted from the edge before and not
 * from the tick that saw it, so that uneven ticks make no error; in a tick the gate toggles once at most.
 */
final class Gate {
    private boolean open = true;
    private int edgeMicros;

    boolean isOpen() {
        return open;
    }

    /** The entry becomes active. */
    void begin(Timing timing, int tickMicros) {
        open = true;
        edgeMicros = tickMicros + timing.onMicros;
    }

    /** A later tick of the same activity starts. */
    void beginTick(Timing timing, int tickMicros) {
        if (timing.onMicros != 0 && tickMicros - edgeMicros >= 0) {
            open = !open;
            edgeMicros += open ? timing.onMicros : timing.offMicros;
        }
    }
}
