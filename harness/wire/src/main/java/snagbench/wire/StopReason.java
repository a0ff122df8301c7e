package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** Why the rig makes its safe stop. */
public enum StopReason {
    /** The bench asked for it. */
    LET_GO(0),

    /** The lease ran out. */
    LEASE(1),

    /** A guard tripped. */
    GUARD(2);

    private static final StopReason[] ALL = values();

    private final int code;

    StopReason(int code) {
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
    public static @Nullable StopReason of(int code) {
        for (StopReason one : ALL) {
            if (one.code == code) {
                return one;
            }
        }
        return null;
    }
}
