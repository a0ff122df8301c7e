package snagbench.bench.judge;

import java.util.Arrays;

/** A derived channel, worked out once for all ticks of which anything is known. */
final class DerivedCells implements Cells {
    private final long[] least;
    private final long[] greatest;
    private int firstTick;

    /** Nothing known of any tick. */
    DerivedCells(int ticks) {
        least = new long[ticks];
        greatest = new long[ticks];
        Arrays.fill(least, LEAST);
        Arrays.fill(greatest, GREATEST);
    }

    int ticks() {
        return least.length;
    }

    /** What it can have been at a tick; values out of all range are as good as unknown. */
    void set(int tick, long from, long to) {
        least[tick] = from <= LEAST || from >= GREATEST ? LEAST : from;
        greatest[tick] = to >= GREATEST || to <= LEAST ? GREATEST : to;
    }

    /** It can have had no value before this tick. */
    void begin(int tick) {
        firstTick = tick;
    }

    @Override
    public long least(int tick) {
        return isWithin(tick) ? least[tick] : LEAST;
    }

    @Override
    public long greatest(int tick) {
        return isWithin(tick) ? greatest[tick] : GREATEST;
    }

    private boolean isWithin(int tick) {
        return tick >= 0 && tick < least.length;
    }

    @Override
    public int firstTick() {
        return firstTick;
    }
}
