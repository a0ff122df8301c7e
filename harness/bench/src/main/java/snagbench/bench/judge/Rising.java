package snagbench.bench.judge;

import snagbench.bench.trace.Trace;

/**
 * Looks for the first time that a condition comes about anew. Where the condition is not known in a tick, both
 * possibilities are followed, each with what it was in the tick before; so the answer is what all completions of the
 * trace have in common.
 */
final class Rising {
    /** One possibility: whether it held in the tick before, and what it was in the period of this row so far. */
    private static final int HELD = 1;

    private static final int WAS_TRUE = 2;
    private static final int WAS_FALSE = 4;
    private static final int POSSIBILITIES = 8;

    private final Timeline timeline;
    private final Signal signal;
    private final Arrival arrival;

    Rising(Timeline timeline, Signal signal, Arrival arrival) {
        this.timeline = timeline;
        this.signal = signal;
        this.arrival = arrival;
    }

    /** Gathers all ticks, from the first that counts on, in which the condition may have come about first. */
    void follow(int firstTick) {
        int open = asBefore(firstTick);
        int last = timeline.lastKnownTick();
        for (int tick = firstTick; tick <= last && open != 0; tick++) {
            open = signal.entersAt(tick) ? enter(tick) : step(open, tick);
            open = atEndOfPeriod(open, tick, firstTick);
        }
        if (open != 0) {
            arrival.mayBeMissing();
        }
    }

    private int asBefore(int firstTick) {
        int before = firstTick == 0 ? Truth.UNKNOWN : signal.at(firstTick - 1);
        return ((before & Truth.FALSE) != 0 ? bit(0) : 0) | ((before & Truth.TRUE) != 0 ? bit(HELD) : 0);
    }

    private int enter(int tick) {
        arrival.mayBeAt(tick);
        return 0;
    }

    private int step(int open, int tick) {
        int truth = signal.at(tick);
        int next = 0;
        boolean rises = false;
        for (int one = 0; one < POSSIBILITIES; one++) {
            if ((open & bit(one)) == 0) {
                continue;
            }
            if ((truth & Truth.FALSE) != 0) {
                next |= bit((one & ~HELD) | WAS_FALSE);
            }
            if ((truth & Truth.TRUE) != 0 && (one & HELD) != 0) {
                next |= bit(one | WAS_TRUE);
            }
            rises |= (truth & Truth.TRUE) != 0 && (one & HELD) == 0;
        }
        if (rises) {
            arrival.mayBeAt(tick);
        }
        return next;
    }

    /** Drops the possibilities that least and greatest of a record of several ticks rule out. */
    private int atEndOfPeriod(int open, int tick, int firstTick) {
        Trace trace = timeline.trace();
        if (trace.periodTicks() == 1) {
            return open;
        }
        int row = trace.rowAtOrAfter(tick);
        boolean ends = row < trace.rows() && trace.tick(row) == tick;
        if (!ends) {
            return open;
        }
        boolean whole = tick - trace.periodTicks() + 1 >= firstTick;
        int certain = whole ? signal.somewhere(row) : 0;
        int next = 0;
        for (int one = 0; one < POSSIBILITIES; one++) {
            boolean fits = ((certain & Truth.TRUE) == 0 || (one & WAS_TRUE) != 0)
                    && ((certain & Truth.FALSE) == 0 || (one & WAS_FALSE) != 0);
            if ((open & bit(one)) != 0 && fits) {
                next |= bit(one & HELD);
            }
        }
        return next;
    }

    private static int bit(int possibility) {
        return 1 << possibility;
    }
}
