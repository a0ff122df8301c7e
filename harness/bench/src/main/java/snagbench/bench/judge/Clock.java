package snagbench.bench.judge;

import java.util.Arrays;
import java.util.List;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;

/**
 * When each tick can have started. Records and events tell it of their own ticks; between them the clock runs by at least
 * a microsecond a tick.
 */
final class Clock {
    private final long[] earliest;
    private final long[] latest;

    private Clock(long[] earliest, long[] latest) {
        this.earliest = earliest;
        this.latest = latest;
    }

    static Clock of(Trace trace) {
        List<Happening> events = trace.events();
        int last = trace.rows() == 0 ? 0 : trace.tick(trace.rows() - 1);
        for (Happening one : events) {
            last = Math.max(last, one.tick());
        }
        long[] known = new long[last + 1];
        Arrays.fill(known, -1);
        for (Happening one : events) {
            if (one.tick() >= 0) {
                known[one.tick()] = one.micros();
            }
        }
        for (int row = 0; row < trace.rows(); row++) {
            known[trace.tick(row)] = trace.micros(row);
        }
        known[0] = 0;
        return new Clock(forward(known), back(known));
    }

    private static long[] forward(long[] known) {
        long[] found = new long[known.length];
        for (int tick = 1; tick < known.length; tick++) {
            found[tick] = known[tick] >= 0 ? known[tick] : found[tick - 1] + 1;
        }
        return found;
    }

    private static long[] back(long[] known) {
        long[] found = new long[known.length];
        found[known.length - 1] = known[known.length - 1];
        for (int tick = known.length - 2; tick >= 0; tick--) {
            found[tick] = known[tick] >= 0 ? known[tick] : found[tick + 1] - 1;
        }
        return found;
    }

    long earliest(int tick) {
        int last = earliest.length - 1;
        return tick <= last ? earliest[Math.max(tick, 0)] : earliest[last] + (tick - last);
    }

    long latest(int tick) {
        return tick < latest.length ? latest[Math.max(tick, 0)] : Timeline.NEVER;
    }
}
