package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** Why the controller started. */
public enum ResetCause {
    /** The controller cannot tell. */
    UNKNOWN(0),

    /** Power was switched on. */
    POWER_ON(1),

    /** Its reset pin, or a debugger. */
    EXTERNAL(2),

    /** The supply fell below the brown-out level. */
    BROWN_OUT(3),

    /** Its watchdog ran out. */
    WATCHDOG(4),

    /** The control code asked for it. */
    SOFTWARE(5);

    private static final ResetCause[] ALL = values();

    private final int code;

    ResetCause(int code) {
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
    public static @Nullable ResetCause of(int code) {
        for (ResetCause one : ALL) {
            if (one.code == code) {
                return one;
            }
        }
        return null;
    }
}
