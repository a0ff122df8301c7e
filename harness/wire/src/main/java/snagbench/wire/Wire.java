package snagbench.wire;

/** Figures that both ends of the line share. */
public final class Wire {
    /** Version of the wire format that this library speaks. */
    public static final int VERSION = 1;

    /** Every peer takes frames of this many bytes, delimiter counted. */
    public static final int SMALLEST_FRAME = 64;

    /** Most bytes of a channel's name in UTF-8. */
    public static final int LONGEST_NAME = 24;

    /** Most bytes of a unit's symbol in UTF-8. */
    public static final int LONGEST_UNIT = 12;

    /** Most bytes of the text that names a build in UTF-8. */
    public static final int LONGEST_BUILD = 12;

    /** Longest lease in milliseconds. */
    public static final int LONGEST_LEASE_MILLIS = 10_000;

    /** Most channels in one part of a record, and most entries of a program: their masks have 32 bits. */
    public static final int MASK_BITS = 32;

    private Wire() {}
}
