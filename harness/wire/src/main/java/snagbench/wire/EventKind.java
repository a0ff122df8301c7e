package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** What an event tells; its two values are a and b. */
public enum EventKind {
    /** Entry a became active, for the b-th time. */
    ENTRY_ON(0),

    /** Entry a ended; b is an {@link EntryEnd}. */
    ENTRY_OFF(1),

    /** Stage a of the program is done. */
    STAGE_DONE(2),

    /** Stage a was not done in time; the program ends. */
    STAGE_TIMED_OUT(3),

    /** State channel a has the value b from this tick on. */
    STATE(4),

    /** Fail-safe a reported, for the b-th time since arming. */
    ANSWERED(5),

    /** Guard a tripped at the real reading b. */
    GUARD(6),

    /** The lease was taken (a is 1) or ran out (a is 0). */
    LEASE(7),

    /** Safe stop for {@link StopReason} a: begun (b is 0) or done (b is 1). */
    STOP(8),

    /** The program was armed with a entries and seed b; this tick is tick 0. */
    ARMED(9);

    private static final EventKind[] ALL = values();

    private final int code;

    EventKind(int code) {
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
    public static @Nullable EventKind of(int code) {
        for (EventKind one : ALL) {
            if (one.code == code) {
                return one;
            }
        }
        return null;
    }
}
