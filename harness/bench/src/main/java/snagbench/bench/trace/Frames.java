package snagbench.bench.trace;

/** The pieces of a trace file: their types, and what all of them share. docs/trace-files.md has them one by one. */
final class Frames {
    /** What the first piece says, so that a file is known for what it is. */
    static final String MAGIC = "snagbench trace";

    /** Version of the format that is written; older ones are read too. */
    static final int VERSION = 1;

    /** Longest piece in bytes: room for a row of more channels than a rig has. */
    static final int LONGEST = 1 << 16;

    static final int HEAD = 64;
    static final int RIG = 65;
    static final int WATCH = 66;
    static final int ROWS = 67;
    static final int RESTART = 68;
    static final int END = 69;

    /** In a piece of rows, stands where an event follows, instead of a count of changes. */
    static final int EVENT = -1;

    /** Stands for an event of a kind that this version does not know: its number was seen, so that it is no gap. */
    static final int UNKNOWN_KIND = -1;

    /** Rows in a piece: so many are lost if one is damaged. */
    static final int MOST_ROWS = 64;

    /** Integers in a piece from which on it is closed. */
    static final int MOST_INTEGERS = 4000;

    private Frames() {}
}
