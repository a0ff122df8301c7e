package snagbench.virtualrig.shuttle.control;

import java.util.EnumMap;
import java.util.Map;

/** How often each thing has failed for this pot. */
final class Tries {
    /** What is tried. */
    enum Of {
        REACHING,
        DRAWING_BACK,
        HOLDING_PLACE,
        HANDING_OVER
    }

    private final Map<Of, Integer> failed = new EnumMap<>(Of.class);

    /** A try failed; true where that was the last one. */
    boolean failed(Of what, int most) {
        return failed.merge(what, 1, Integer::sum) >= most;
    }

    void restart() {
        failed.clear();
    }
}
