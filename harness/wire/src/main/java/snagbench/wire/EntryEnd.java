package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** What ended an entry. */
public enum EntryEnd {
    /** Its own time was over. */
    LASTED(0),

    /** What it was to last until came about. */
    UNTIL(1),

    /** What it was to last for no longer held. */
    WHILE(2),

    /** The safe stop was done, or the program was let go. */
    RELEASED(3);

    private static final EntryEnd[] ALL = values();

    private final int code;

    EntryEnd(int code) {
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
    public static @Nullable EntryEnd of(int code) {
        for (EntryEnd one : ALL) {
            if (one.code == code) {
                return one;
            }
        }
        return null;
    }
}
