package snagbench.bench.judge;

/**
 * What a quantity may have been at each tick, in its channel's steps: anything from a least to a greatest value. That is a
 * point where it was recorded, a span where a record speaks for several ticks, and everything where nothing is known.
 */
interface Cells {
    /** No value is below this one; a cell that reaches down to it is not known to be bounded below. */
    long LEAST = -(1L << 40);

    /** No value is above this one; a cell that reaches up to it is not known to be bounded above. */
    long GREATEST = 1L << 40;

    /** The least that it can have been at a tick. */
    long least(int tick);

    /** The greatest that it can have been at a tick. */
    long greatest(int tick);

    /**
     * Values that it certainly had at some tick of those that a row speaks for.
     *
     * @param row of the trace
     * @return maybe none
     */
    default long[] seenIn(int row) {
        return new long[0];
    }

    /** The first tick at which it can have had a value at all. */
    default int firstTick() {
        return 0;
    }

    /** Tells whether nothing bounds it at a tick, on one side at least. */
    default boolean isOpen(int tick) {
        return least(tick) <= LEAST || greatest(tick) >= GREATEST;
    }
}
