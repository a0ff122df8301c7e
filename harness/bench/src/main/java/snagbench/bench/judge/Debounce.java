package snagbench.bench.judge;

/**
 * A condition, followed only once it has been the other way for a time: it is what the newest run of ticks that lasted so
 * long was, and no before there was one. A run lasts from its first tick on.
 */
final class Debounce {
    private Debounce() {}

    static Cells of(Timeline timeline, Signal condition, long forMicros, int ticks) {
        DerivedCells found = new DerivedCells(ticks);
        Run yes = new Run(timeline, Truth.TRUE, forMicros);
        Run no = new Run(timeline, Truth.FALSE, forMicros);
        int state = Truth.FALSE;
        for (int tick = 0; tick < ticks; tick++) {
            int truth = condition.at(tick);
            yes.goOn(tick, truth);
            no.goOn(tick, truth);
            if (yes.hasLasted(tick)) {
                state = Truth.TRUE;
            } else if (no.hasLasted(tick)) {
                state = Truth.FALSE;
            } else {
                state |= (yes.mayHaveLasted(tick) ? Truth.TRUE : 0) | (no.mayHaveLasted(tick) ? Truth.FALSE : 0);
            }
            found.set(tick, (state & Truth.FALSE) != 0 ? 0 : 1, (state & Truth.TRUE) != 0 ? 1 : 0);
        }
        found.begin(condition.firstTick());
        return found;
    }

    /** The run of one of the two values that ends with the tick: as it is for certain, and as long as it may be. */
    private static final class Run {
        private final Timeline timeline;
        private final int value;
        private final long forMicros;
        private int begin = -1;
        private int mayBegin = -1;

        Run(Timeline timeline, int value, long forMicros) {
            this.timeline = timeline;
            this.value = value;
            this.forMicros = forMicros;
        }

        void goOn(int tick, int truth) {
            begin = truth != value ? -1 : begin < 0 ? tick : begin;
            mayBegin = (truth & value) == 0 ? -1 : mayBegin < 0 ? tick : mayBegin;
        }

        boolean hasLasted(int tick) {
            return begin >= 0 && timeline.earliest(tick) - timeline.latest(begin) >= forMicros;
        }

        boolean mayHaveLasted(int tick) {
            return mayBegin >= 0 && timeline.latest(tick) - timeline.earliest(mayBegin) >= forMicros;
        }
    }
}
