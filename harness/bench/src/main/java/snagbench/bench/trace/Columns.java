package snagbench.bench.trace;

import java.util.Arrays;
import snagbench.wire.Record;

/**
 * The readings of a trace, one row a record, kept as columns that only grow: a row that is whole never changes, so that
 * views may share them. Not threadsafe.
 */
final class Columns {
    private static final int FIRST_CAPACITY = 128;
    private static final int BITS = 32;

    /** Watched channels: values of a row. */
    final int width;

    private final boolean period;
    private final int maskWords;
    private int capacity = FIRST_CAPACITY;

    int[] ticks = new int[FIRST_CAPACITY];
    long[] micros = new long[FIRST_CAPACITY];
    int[] active = new int[FIRST_CAPACITY];
    int[] flags = new int[FIRST_CAPACITY];
    int[] newestEvents = new int[FIRST_CAPACITY];
    int[] dropped = new int[FIRST_CAPACITY];
    int[] shortestLoops = new int[0];
    int[] longestLoops = new int[0];
    int[] told;
    int[] real;
    int[] leastTold = new int[0];
    int[] greatestTold = new int[0];
    int[] leastReal = new int[0];
    int[] greatestReal = new int[0];
    private int[] present;
    private int[] forced;
    private int[] stale;
    private int[] absent;

    Columns(int width, boolean period) {
        this.width = width;
        this.period = period;
        this.maskWords = (width + BITS - 1) / BITS;
        told = new int[FIRST_CAPACITY * width];
        real = new int[FIRST_CAPACITY * width];
        present = new int[FIRST_CAPACITY * maskWords];
        forced = new int[FIRST_CAPACITY * maskWords];
        stale = new int[FIRST_CAPACITY * maskWords];
        absent = new int[FIRST_CAPACITY * maskWords];
        if (period) {
            shortestLoops = new int[FIRST_CAPACITY];
            longestLoops = new int[FIRST_CAPACITY];
            leastTold = new int[FIRST_CAPACITY * width];
            greatestTold = new int[FIRST_CAPACITY * width];
            leastReal = new int[FIRST_CAPACITY * width];
            greatestReal = new int[FIRST_CAPACITY * width];
        }
    }

    void begin(int row, int tick, long sinceArming, Record head, int newestEvent) {
        if (row == capacity) {
            grow();
        }
        ticks[row] = tick;
        micros[row] = sinceArming;
        active[row] = head.active;
        flags[row] = head.flags & ~Record.MORE;
        newestEvents[row] = newestEvent;
        dropped[row] = head.dropped;
        if (period) {
            shortestLoops[row] = head.shortestLoopMicros;
            longestLoops[row] = head.longestLoopMicros;
        }
    }

    void fill(int row, Record part) {
        int count = part.count();
        int at = row * width + part.first;
        for (int i = 0; i < count; i++) {
            told[at + i] = part.told(i);
            real[at + i] = part.real(i);
        }
        if (period) {
            for (int i = 0; i < count; i++) {
                leastTold[at + i] = part.leastTold(i);
                greatestTold[at + i] = part.greatestTold(i);
                leastReal[at + i] = part.leastReal(i);
                greatestReal[at + i] = part.greatestReal(i);
            }
        }
        int all = count == BITS ? -1 : (1 << count) - 1;
        mark(present, row, part.first, all);
        mark(forced, row, part.first, part.forced);
        mark(stale, row, part.first, part.stale);
        mark(absent, row, part.first, part.absent);
    }

    private void mark(int[] masks, int row, int first, int mask) {
        if (mask == 0) {
            return;
        }
        int word = row * maskWords + first / BITS;
        long shifted = (mask & 0xFFFFFFFFL) << first % BITS;
        masks[word] |= (int) shifted;
        if (shifted >>> BITS != 0) {
            masks[word + 1] |= (int) (shifted >>> BITS);
        }
    }

    boolean isPresent(int row, int place) {
        return isMarked(present, row, place);
    }

    boolean isForced(int row, int place) {
        return isMarked(forced, row, place);
    }

    boolean isStale(int row, int place) {
        return isMarked(stale, row, place);
    }

    boolean isAbsent(int row, int place) {
        return isMarked(absent, row, place);
    }

    private boolean isMarked(int[] masks, int row, int place) {
        return (masks[row * maskWords + place / BITS] >>> place % BITS & 1) != 0;
    }

    private void grow() {
        capacity = Math.multiplyExact(capacity, 2);
        ticks = Arrays.copyOf(ticks, capacity);
        micros = Arrays.copyOf(micros, capacity);
        active = Arrays.copyOf(active, capacity);
        flags = Arrays.copyOf(flags, capacity);
        newestEvents = Arrays.copyOf(newestEvents, capacity);
        dropped = Arrays.copyOf(dropped, capacity);
        told = widened(told);
        real = widened(real);
        present = Arrays.copyOf(present, capacity * maskWords);
        forced = Arrays.copyOf(forced, capacity * maskWords);
        stale = Arrays.copyOf(stale, capacity * maskWords);
        absent = Arrays.copyOf(absent, capacity * maskWords);
        if (period) {
            shortestLoops = Arrays.copyOf(shortestLoops, capacity);
            longestLoops = Arrays.copyOf(longestLoops, capacity);
            leastTold = widened(leastTold);
            greatestTold = widened(greatestTold);
            leastReal = widened(leastReal);
            greatestReal = widened(greatestReal);
        }
    }

    private int[] widened(int[] column) {
        return Arrays.copyOf(column, Math.multiplyExact(capacity, width));
    }
}
