package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** What a guard limits, on real readings. */
public enum GuardKind {
    /** Trips below a or above b. */
    TRAVEL(0),

    /** Trips when the reading changes by more than a, either way, over the window. */
    SPEED(1),

    /** Trips when the command's size is at least a and the reading changed by at most b over the window, for the time. */
    STALL(2);

    private static final GuardKind[] ALL = values();

    private final int code;

    GuardKind(int code) {
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
    public static @Nullable GuardKind of(int code) {
        for (GuardKind one : ALL) {
            if (one.code == code) {
                return one;
            }
        }
        return null;
    }
}
