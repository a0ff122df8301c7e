package snagbench.bench.judge;

/**
 * Change per second over a window: (x(k) - x(j)) / (t(k) - t(j)), j being the last tick that lies at least the window before
 * k. Before there is such a tick it has no value.
 */
final class Rates {
    private static final long MICROS_PER_SECOND = 1_000_000;

    private Rates() {}

    static Cells of(Timeline timeline, Cells cells, long overMicros, Ratio ratio, int ticks) {
        DerivedCells found = new DerivedCells(ticks);
        Ratio perSecond = ratio.times(MICROS_PER_SECOND);
        TimeWindow window = new TimeWindow(timeline, overMicros, false);
        Hull before = new Hull(cells);
        int firstTick = ticks;
        for (int tick = 0; tick < ticks; tick++) {
            window.endWith(tick);
            int from = window.mayBegin() - 1;
            int to = window.begins() - 1;
            firstTick = to < 0 ? firstTick : Math.min(firstTick, tick);
            if (from < 0 || cells.isOpen(tick)) {
                continue;
            }
            before.span(from, to);
            if (before.isOpen()) {
                continue;
            }
            long shortest = Math.max(overMicros, timeline.earliest(tick) - timeline.latest(to));
            long longest = timeline.latest(tick) - timeline.earliest(from);
            long least = cells.least(tick) - before.greatest();
            long greatest = cells.greatest(tick) - before.least();
            found.set(
                    tick,
                    perSecond.floor(least, least >= 0 ? longest : shortest),
                    perSecond.ceiling(greatest, greatest >= 0 ? shortest : longest));
        }
        found.begin(firstTick);
        return found;
    }
}
