package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** What an entry of the program does while it is active. */
public enum EntryKind {
    /** Forces nothing: a stage that is done when its condition holds. */
    WAIT(0),

    /** Told value is a. */
    STUCK_AT(1),

    /** Told value is the last real value of the tick whose end struck. */
    FREEZE(2),

    /** Adds a, at once or at b per microsecond (in 1/2^32 steps) until a is reached. */
    OFFSET(3),

    /** Multiplies by a/65536. */
    SCALE(4),

    /** Adds a per microsecond, in 1/2^32 steps. */
    DRIFT(5),

    /** Adds a, for a short while. */
    SPIKE(6),

    /** Adds seeded noise; a is its amplitude. */
    NOISE(7),

    /** No reading: told value is the channel's value when absent. */
    DROPOUT(8),

    /** Told value is the one of a ticks ago. */
    DELAY(9),

    /** Told value follows the entry's points. */
    REPLAY(10);

    private static final EntryKind[] ALL = values();

    private final int code;

    EntryKind(int code) {
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
    public static @Nullable EntryKind of(int code) {
        for (EntryKind one : ALL) {
            if (one.code == code) {
                return one;
            }
        }
        return null;
    }
}
