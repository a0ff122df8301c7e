package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** What an item of the description tells. */
public enum ItemKind {
    /** Kind, flags, name and unit of the next channel. */
    CHANNEL(0),

    /** Step, range and value when absent of the channel before. */
    RANGE(1),

    /** The name of a value of the channel before. */
    VALUE_NAME(2),

    /** A fail-safe: its number, its inhibition's channel (-1: none) and its name. */
    FAIL_SAFE(3);

    private static final ItemKind[] ALL = values();

    private final int code;

    ItemKind(int code) {
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
    public static @Nullable ItemKind of(int code) {
        for (ItemKind one : ALL) {
            if (one.code == code) {
                return one;
            }
        }
        return null;
    }
}
