package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** What a term's truth is for. */
public enum TermRole {
    /** Part of the condition that strikes the entry. */
    WHEN(0),

    /** The entry ends at the first tick in which these do not all hold. */
    WHILE(1),

    /** The entry ends at the first tick in which these all hold. */
    UNTIL(2);

    private static final TermRole[] ALL = values();

    private final int code;

    TermRole(int code) {
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
    public static @Nullable TermRole of(int code) {
        for (TermRole one : ALL) {
            if (one.code == code) {
                return one;
            }
        }
        return null;
    }
}
