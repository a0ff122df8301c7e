package snagbench.bench.judge;

/**
 * Whether something was driven and did not move: in all ticks that lie at most a window back it was driven, and its readings
 * of them are less than an amount apart. No before so much time has gone by since tick 0.
 */
final class Stalls {
    private Stalls() {}

    static Cells of(Timeline timeline, Cells cells, int raw, long overMicros, Signal driven, int ticks) {
        DerivedCells found = new DerivedCells(ticks);
        TimeWindow window = new TimeWindow(timeline, overMicros, true);
        Hull all = new Hull(cells);
        Hull leasts = new Hull(new Ends(cells, true));
        Hull greatests = new Hull(new Ends(cells, false));
        int lastNotDriven = -1;
        int lastMaybeNotDriven = -1;
        for (int tick = 0; tick < ticks; tick++) {
            window.endWith(tick);
            int truth = driven.at(tick);
            lastNotDriven = truth == Truth.FALSE ? tick : lastNotDriven;
            lastMaybeNotDriven = truth == Truth.TRUE ? lastMaybeNotDriven : tick;
            all.span(window.mayBegin(), tick);
            leasts.span(window.begins(), tick);
            greatests.span(window.begins(), tick);
            boolean isStalled = timeline.earliest(tick) >= overMicros
                    && lastMaybeNotDriven < window.mayBegin()
                    && all.greatest() - all.least() < raw;
            boolean mayBe = timeline.latest(tick) >= overMicros
                    && lastNotDriven < window.begins()
                    && leasts.greatest() - greatests.least() < raw;
            found.set(tick, isStalled ? 1 : 0, mayBe ? 1 : 0);
        }
        found.begin(Math.max(cells.firstTick(), driven.firstTick()));
        return found;
    }

    /** One end of each cell. */
    private record Ends(Cells of, boolean isLeast) implements Cells {
        @Override
        public long least(int tick) {
            return isLeast ? of.least(tick) : of.greatest(tick);
        }

        @Override
        public long greatest(int tick) {
            return least(tick);
        }

        @Override
        public boolean isOpen(int tick) {
            return false;
        }
    }
}
