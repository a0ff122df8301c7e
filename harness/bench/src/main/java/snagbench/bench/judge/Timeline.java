package snagbench.bench.judge;

import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import snagbench.bench.trace.Gap;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/**
 * Which ticks of a trace are judged, and when each of them was, as closely as is known. What the rig does once it makes
 * its safe stop is not the control code's doing, so that nothing from that tick on is judged.
 */
final class Timeline {
    /** No later time is known. */
    static final long NEVER = Long.MAX_VALUE;

    private final Trace trace;
    private final List<Happening> events;
    private final int lastTick;
    private final int lastEventTick;
    private final long seenThroughMicros;
    private final boolean stopped;
    private @Nullable List<Gap> unknownEvents;
    private int @Nullable [] eventGaps;
    private @Nullable Clock clock;

    Timeline(Trace trace) {
        this.trace = trace;
        OptionalInt stop = stopTick(trace);
        stopped = stop.isPresent();
        int cut = stop.isPresent() ? stop.getAsInt() - 1 : Integer.MAX_VALUE;
        events = trace.events().stream().filter(one -> one.tick() <= cut).toList();
        int rows = stopped ? trace.rowAtOrAfter(cut + 1) : trace.rows();
        lastTick = rows == 0 ? -1 : trace.tick(rows - 1);
        long through = rows == 0 ? -1 : trace.micros(rows - 1);
        if (rows < trace.rows() && trace.tick(rows) == lastTick + 1) {
            through = trace.micros(rows) - 1;
        }
        seenThroughMicros = through;
        lastEventTick = events.isEmpty() ? -1 : events.get(events.size() - 1).tick();
    }

    private static OptionalInt stopTick(Trace trace) {
        return trace.events().stream()
                .filter(one -> one.kind() == EventKind.STOP && one.b() == 0)
                .mapToInt(Happening::tick)
                .findFirst();
    }

    Trace trace() {
        return trace;
    }

    /** Events that count, in order. */
    List<Happening> events() {
        return events;
    }

    /** The last tick that counts and has a record; -1 where there is none. */
    int lastTick() {
        return lastTick;
    }

    /** The last tick that counts and has a record or an event. */
    int lastKnownTick() {
        return Math.max(lastTick, lastEventTick);
    }

    /** No tick up to this time is outside of what counts. */
    long seenThroughMicros() {
        return seenThroughMicros;
    }

    /** Tells whether a safe stop cut off what counts. */
    boolean wasStopped() {
        return stopped;
    }

    /** Tells whether every event of a span of ticks counts and was seen. */
    boolean hasAllEvents(int first, int last) {
        if (last > lastTick) {
            return false;
        }
        int[] gaps = eventGaps();
        return last < first || gaps[last + 1] == gaps[Math.max(first, 0)];
    }

    /** How many of the ticks before each may have an event that was not seen. */
    private int[] eventGaps() {
        int[] known = eventGaps;
        if (known == null) {
            int[] changes = new int[lastTick + 2];
            for (Gap gap : trace.eventGaps()) {
                int from = Math.max(0, Math.min(gap.firstTick(), gap.lastTick()));
                if (from <= lastTick) {
                    changes[from]++;
                    changes[Math.min(lastTick, Math.max(gap.firstTick(), gap.lastTick())) + 1]--;
                }
            }
            known = new int[lastTick + 2];
            int open = 0;
            for (int tick = 0; tick <= lastTick; tick++) {
                open += changes[tick];
                known[tick + 1] = known[tick] + (open > 0 ? 1 : 0);
            }
            eventGaps = known;
        }
        return known;
    }

    /** Spans in which events are not known, the last without end. */
    List<Gap> unknownEvents() {
        List<Gap> known = unknownEvents;
        if (known == null) {
            known = Stream.concat(trace.eventGaps().stream(), Stream.of(new Gap(lastTick + 1, Integer.MAX_VALUE)))
                    .distinct()
                    .toList();
            unknownEvents = known;
        }
        return known;
    }

    /** The earliest time at which a tick can have started. */
    long earliest(int tick) {
        return clock().earliest(tick);
    }

    /** The latest time at which a tick can have started. */
    long latest(int tick) {
        return clock().latest(tick);
    }

    private Clock clock() {
        Clock known = clock;
        if (known == null) {
            known = Clock.of(trace);
            clock = known;
        }
        return known;
    }
}
