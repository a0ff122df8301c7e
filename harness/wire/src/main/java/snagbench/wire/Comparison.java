package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** How a term compares a channel with its value. */
public enum Comparison {
    /** Reading is at least the value. */
    AT_LEAST(0),

    /** Reading is above the value. */
    ABOVE(1),

    /** Reading is at most the value. */
    AT_MOST(2),

    /** Reading is below the value. */
    BELOW(3),

    /** Reading is the value. */
    IS(4),

    /** Reading is not the value. */
    IS_NOT(5),

    /** Reading is at least the value and was below it in the tick before. */
    RISES_TO(6),

    /** Reading is at most the value and was above it in the tick before. */
    FALLS_TO(7),

    /** The fail-safe whose number is the value reported in this tick; no channel. */
    ANSWERED(8),

    /** Reading changed by more than the value, either way, over the window. */
    FASTER_THAN(9),

    /** Reading changed by less than the value, either way, over the window. */
    SLOWER_THAN(10),

    /** What was told and what came in differ by at most the value, either way. */
    AGREES(11);

    private static final Comparison[] ALL = values();

    private final int code;

    Comparison(int code) {
        this.code = code;
    }

    /**
     * The number on the line.
     *
     * @return the code
     */
    public int code() {
        return code;
    }

    /**
     * Finds by the number on the line.
     *
     * @param code from the line
     * @return the constant, or null where this version knows none
     */
    public static @Nullable Comparison of(int code) {
        for (Comparison one : ALL) {
            if (one.code == code) {
                return one;
            }
        }
        return null;
    }
}
