package snagbench.bench.judge;

import java.math.BigInteger;

/**
 * Means over the ticks that lie less than a window back; at the start, over those since tick 0. Sums are kept from the first
 * tick on, so that a window's is the difference of two.
 */
final class Averages {
    /** So many beginnings of a window are tried one by one; with more of them its readings alone bound the outcome. */
    private static final int MOST_BEGINNINGS = 64;
    /** A reading beyond this is not squared. */
    private static final long GREATEST_TO_SQUARE = Integer.MAX_VALUE;

    private final Timeline timeline;
    private final Cells cells;
    private final long overMicros;
    private final int ticks;

    Averages(Timeline timeline, Cells cells, long overMicros, int ticks) {
        this.timeline = timeline;
        this.cells = cells;
        this.overMicros = overMicros;
        this.ticks = ticks;
    }

    Cells mean(Ratio ratio) {
        return average(cells, (sum, count) -> ratio.floor(sum, count), (sum, count) -> ratio.ceiling(sum, count));
    }

    /** Root of the mean of the squares. Where the sum of a window's squares has no room in 63 bits it is not known. */
    Cells rootMeanSquare(Ratio ratio) {
        Ratio squared = ratio.squared();
        return average(
                new Squares(cells),
                (sum, count) -> squared.rootFloor(BigInteger.valueOf(sum), count),
                (sum, count) -> squared.rootCeiling(BigInteger.valueOf(sum), count));
    }

    private interface Quotient {
        long of(long sum, long count);
    }

    private Cells average(Cells of, Quotient floor, Quotient ceiling) {
        DerivedCells found = new DerivedCells(ticks);
        Sums sums = new Sums(of, ticks);
        Hull hull = new Hull(of);
        TimeWindow window = new TimeWindow(timeline, overMicros, false);
        for (int tick = 0; tick < ticks; tick++) {
            window.endWith(tick);
            int from = window.mayBegin();
            hull.span(from, tick);
            if (sums.isOpen(from, tick)) {
                continue;
            }
            if (window.begins() - from > MOST_BEGINNINGS) {
                found.set(tick, floor.of(hull.least(), 1), ceiling.of(hull.greatest(), 1));
                continue;
            }
            long least = Long.MAX_VALUE;
            long greatest = Long.MIN_VALUE;
            for (int begin = from; begin <= window.begins(); begin++) {
                long count = tick - begin + 1L;
                least = Math.min(least, floor.of(sums.least(begin, tick), count));
                greatest = Math.max(greatest, ceiling.of(sums.greatest(begin, tick), count));
            }
            found.set(tick, least, greatest);
        }
        found.begin(of.firstTick());
        return found;
    }

    /** Sums over ticks. They may wrap, as long as those of a window do not. */
    private static final class Sums {
        private final long[] least;
        private final long[] greatest;
        private final int[] open;
        private final long largest;

        Sums(Cells cells, int ticks) {
            least = new long[ticks + 1];
            greatest = new long[ticks + 1];
            open = new int[ticks + 1];
            long found = 0;
            for (int tick = 0; tick < ticks; tick++) {
                boolean isOpen = cells.isOpen(tick);
                open[tick + 1] = open[tick] + (isOpen ? 1 : 0);
                least[tick + 1] = least[tick] + (isOpen ? 0 : cells.least(tick));
                greatest[tick + 1] = greatest[tick] + (isOpen ? 0 : cells.greatest(tick));
                if (!isOpen) {
                    found = Math.max(found, Math.max(Math.abs(cells.least(tick)), Math.abs(cells.greatest(tick))));
                }
            }
            largest = found;
        }

        boolean isOpen(int from, int to) {
            return open[to + 1] != open[from]
                    || Math.multiplyHigh(largest, to - from + 1L) != 0
                    || largest * (to - from + 1L) < 0;
        }

        long least(int from, int to) {
            return least[to + 1] - least[from];
        }

        long greatest(int from, int to) {
            return greatest[to + 1] - greatest[from];
        }
    }

    /** The squares of a quantity. */
    private record Squares(Cells of) implements Cells {
        @Override
        public long least(int tick) {
            long least = of.least(tick);
            long greatest = of.greatest(tick);
            long nearest = least <= 0 && greatest >= 0 ? 0 : Math.min(Math.abs(least), Math.abs(greatest));
            return nearest * nearest;
        }

        @Override
        public long greatest(int tick) {
            long furthest = Math.max(Math.abs(of.least(tick)), Math.abs(of.greatest(tick)));
            return furthest * furthest;
        }

        @Override
        public boolean isOpen(int tick) {
            return of.isOpen(tick)
                    || Math.abs(of.least(tick)) > GREATEST_TO_SQUARE
                    || Math.abs(of.greatest(tick)) > GREATEST_TO_SQUARE;
        }

        @Override
        public int firstTick() {
            return of.firstTick();
        }
    }
}
