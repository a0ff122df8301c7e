package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/**
 * What a state channel was at every tick. Its changes travel as events, so that it is known between records too, as far
 * as no event is missing there.
 */
final class StateValues {
    private final Timeline timeline;
    private final Trace trace;
    private final int channel;
    private final List<Happening> changes = new ArrayList<>();
    private final RowCursor rows;
    private int askedTick = Integer.MIN_VALUE;
    private OptionalInt asked = OptionalInt.empty();

    StateValues(Timeline timeline, int channel) {
        this.timeline = timeline;
        this.trace = timeline.trace();
        this.channel = channel;
        this.rows = new RowCursor(trace);
        for (Happening one : timeline.events()) {
            if (one.is(EventKind.STATE, channel)) {
                changes.add(one);
            }
        }
    }

    /** Tells whether the channel changed to a value in a tick. */
    boolean entersAt(int tick, int raw) {
        for (int i = changesUpTo(tick) - 1; i >= 0 && changes.get(i).tick() == tick; i--) {
            if (changes.get(i).b() == raw) {
                return true;
            }
        }
        return false;
    }

    /** Its value at the end of a tick, where that is known. */
    OptionalInt at(int tick) {
        if (tick != askedTick) {
            asked = valueAt(tick);
            askedTick = tick;
        }
        return asked;
    }

    private OptionalInt valueAt(int tick) {
        int row = rows.rowAtOrAfter(tick);
        if (row < trace.rows() && trace.tick(row) == tick && trace.has(row, channel)) {
            return OptionalInt.of(trace.real(row, channel));
        }
        int upTo = changesUpTo(tick);
        OptionalInt carried = carriedForward(tick, row - 1, upTo);
        return carried.isPresent() ? carried : carriedBack(tick, row, upTo);
    }

    private OptionalInt carriedForward(int tick, int rowBefore, int upTo) {
        boolean hasRow = rowBefore >= 0 && trace.has(rowBefore, channel);
        int rowTick = hasRow ? trace.tick(rowBefore) : -1;
        if (upTo > 0 && changes.get(upTo - 1).tick() > rowTick) {
            // A change behind it in the same tick may be the one that is missing.
            Happening change = changes.get(upTo - 1);
            return timeline.hasAllEvents(change.tick(), tick) ? OptionalInt.of(change.b()) : OptionalInt.empty();
        }
        return hasRow && timeline.hasAllEvents(rowTick + 1, tick)
                ? OptionalInt.of(trace.real(rowBefore, channel))
                : OptionalInt.empty();
    }

    private OptionalInt carriedBack(int tick, int rowAfter, int upTo) {
        if (rowAfter >= trace.rows() || !trace.has(rowAfter, channel)) {
            return OptionalInt.empty();
        }
        int to = trace.tick(rowAfter);
        boolean changed = upTo < changes.size() && changes.get(upTo).tick() <= to;
        return !changed && timeline.hasAllEvents(tick + 1, to)
                ? OptionalInt.of(trace.real(rowAfter, channel))
                : OptionalInt.empty();
    }

    private int changesUpTo(int tick) {
        int low = 0;
        int high = changes.size();
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (changes.get(middle).tick() <= tick) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }
}
