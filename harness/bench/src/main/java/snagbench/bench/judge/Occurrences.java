package snagbench.bench.judge;

import java.util.Arrays;
import snagbench.bench.trace.Trace;

/**
 * Follows a condition from tick to tick and counts how often it comes about anew. Where it is not known in a tick, both
 * possibilities are followed, each with what it was in the tick before; so what is told is what all completions of the
 * trace have in common. Each possibility carries the least and the greatest count that lead to it.
 */
final class Occurrences {
    /** One possibility: whether it held in the tick before, and what it was in the period of this row so far. */
    private static final int HELD = 1;

    private static final int WAS_TRUE = 2;
    private static final int WAS_FALSE = 4;
    private static final int POSSIBILITIES = 8;
    private static final int CLOSED = -1;

    private final Trace trace;
    private final Signal signal;
    private final int firstTick;
    private final int stopAt;
    private final RowCursor rows;
    private int[] least = closed();
    private int[] most = closed();
    private int[] spareLeast = closed();
    private int[] spareMost = closed();

    /**
     * Begins to count.
     *
     * @param trace that is followed
     * @param signal the condition
     * @param firstTick the first tick in which it counts
     * @param stopAt a possibility in which it came about so often is followed no further
     */
    Occurrences(Trace trace, Signal signal, int firstTick, int stopAt) {
        this.trace = trace;
        this.signal = signal;
        this.firstTick = firstTick;
        this.stopAt = stopAt;
        this.rows = new RowCursor(trace);
        int before = firstTick == 0 ? Truth.UNKNOWN : signal.at(firstTick - 1);
        if ((before & Truth.FALSE) != 0) {
            add(least, most, 0, 0, 0);
        }
        if ((before & Truth.TRUE) != 0) {
            add(least, most, HELD, 0, 0);
        }
    }

    private static int[] closed() {
        int[] counts = new int[POSSIBILITIES];
        Arrays.fill(counts, CLOSED);
        return counts;
    }

    private void add(int[] toLeast, int[] toMost, int possibility, int from, int to) {
        int last = Math.min(to, stopAt - 1);
        if (from > last) {
            return;
        }
        boolean isNew = toMost[possibility] == CLOSED;
        toLeast[possibility] = isNew ? from : Math.min(toLeast[possibility], from);
        toMost[possibility] = isNew ? last : Math.max(toMost[possibility], last);
    }

    /**
     * Goes on by a tick.
     *
     * @param tick one more than the last time
     * @param counts whether the tick counts: {@link Truth} bits
     * @return whether it can have come about the last time that counts, in this tick
     */
    boolean step(int tick, int counts) {
        int[] nextLeast = spareLeast;
        int[] nextMost = spareMost;
        Arrays.fill(nextMost, CLOSED);
        boolean reached = false;
        boolean enters = signal.entersAt(tick);
        int truth = signal.at(tick);
        for (int one = 0; one < POSSIBILITIES; one++) {
            if (most[one] == CLOSED) {
                continue;
            }
            int from = least[one];
            int to = most[one];
            boolean rises = enters || ((truth & Truth.TRUE) != 0 && (one & HELD) == 0);
            int up = rises && (counts & Truth.TRUE) != 0 ? 1 : 0;
            int surely = rises && counts == Truth.TRUE ? 1 : 0;
            reached |= up > 0 && to + 1 >= stopAt;
            if (enters) {
                // An event settles it: it came about, whatever the records of before leave open.
                enter(nextLeast, nextMost, truth, from + surely, to + up);
                continue;
            }
            if ((truth & Truth.FALSE) != 0) {
                add(nextLeast, nextMost, (one & ~HELD) | WAS_FALSE, from, to);
            }
            if ((truth & Truth.TRUE) != 0) {
                add(nextLeast, nextMost, one | HELD | WAS_TRUE, from + surely, to + up);
            }
        }
        spareLeast = least;
        spareMost = most;
        least = nextLeast;
        most = nextMost;
        endPeriod(tick);
        return reached;
    }

    private void enter(int[] nextLeast, int[] nextMost, int truth, int from, int to) {
        if ((truth & Truth.FALSE) != 0) {
            add(nextLeast, nextMost, WAS_FALSE | WAS_TRUE, from, to);
        }
        if ((truth & Truth.TRUE) != 0) {
            add(nextLeast, nextMost, HELD | WAS_FALSE | WAS_TRUE, from, to);
        }
    }

    /** Drops the possibilities that least and greatest of a record of several ticks rule out. */
    private void endPeriod(int tick) {
        if (trace.periodTicks() == 1) {
            return;
        }
        int row = rows.rowAtOrAfter(tick);
        if (row == trace.rows() || trace.tick(row) != tick) {
            return;
        }
        boolean whole = tick - trace.periodTicks() + 1 >= firstTick;
        int certain = whole ? signal.somewhere(row) : 0;
        int[] nextLeast = closed();
        int[] nextMost = closed();
        for (int one = 0; one < POSSIBILITIES; one++) {
            boolean fits = ((certain & Truth.TRUE) == 0 || (one & WAS_TRUE) != 0)
                    && ((certain & Truth.FALSE) == 0 || (one & WAS_FALSE) != 0);
            if (most[one] != CLOSED && fits) {
                add(nextLeast, nextMost, one & HELD, least[one], most[one]);
            }
        }
        least = nextLeast;
        most = nextMost;
    }

    /** Tells whether any possibility is left in which it did not yet come about as often as it counts. */
    boolean isOpen() {
        return most() != CLOSED;
    }

    /** How often it came about at least. */
    int least() {
        int found = Integer.MAX_VALUE;
        for (int one = 0; one < POSSIBILITIES; one++) {
            found = most[one] == CLOSED ? found : Math.min(found, least[one]);
        }
        return found;
    }

    /** How often it came about at most. */
    int most() {
        int found = CLOSED;
        for (int count : most) {
            found = Math.max(found, count);
        }
        return found;
    }
}
