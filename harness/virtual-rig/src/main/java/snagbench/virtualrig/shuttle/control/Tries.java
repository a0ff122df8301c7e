package snagbench.virtualrig.shuttle.control;

import java.util.Arrays;

/** How often each thing has failed for this pot. */
final class Tries {
    /** What is tried. */
    enum Of {
        REACHING,
        DRAWING_BACK,
        HOLDING_PLACE,
        HANDING_OVER
    }

    private final int[] failed = new int[Of.values().length];

    /** A try failed; true where that was the last one. */
    boolean failed(Of what, int most) {
        failed[what.ordinal()]++;
        return failed[what.ordinal()] >= most;
    }

    void restart() {
        Arrays.fill(failed, 0);
    }
}
