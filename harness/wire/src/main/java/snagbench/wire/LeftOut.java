package snagbench.wire;

/** What a rig's probe can leave out beside entry kinds: a bit of {@link Hello#kinds} that is set where it has. */
public enum LeftOut {
    /** {@link Timing}: conditions that must have held, delays, occasions, repeats. */
    TIMINGS(11),

    /** Terms over a window: faster than, slower than. */
    WINDOWS(12),

    /** Records of more than one tick. */
    PERIODS(13),

    /** Entries that come and go in a rhythm of their own. */
    RHYTHM(14),

    /** Guards of speed and of stall. */
    GUARD_WINDOWS(15);

    private final int bit;

    LeftOut(int bit) {
        this.bit = bit;
    }

    /**
     * Its place among the bits.
     *
     * @return 11 to 15
     */
    public int bit() {
        return bit;
    }

    /**
     * Whether a rig has left this out.
     *
     * @param kinds what its greeting says it can do
     * @return false for a rig that says nothing of it
     */
    public boolean isIn(int kinds) {
        return (kinds >>> bit & 1) != 0;
    }
}
