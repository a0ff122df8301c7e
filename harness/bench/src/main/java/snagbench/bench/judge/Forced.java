package snagbench.bench.judge;

import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Fault;
import snagbench.bench.script.Injection;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EntryEnd;
import snagbench.wire.EventKind;

/** One override of an injection that struck: how long it was on, what ended it, and whether it changed anything. */
final class Forced {
    private final Trace trace;
    private final Timeline timeline;
    private final Injection.Forcing forcing;
    private final int entry;
    private final Moment.Known strike;
    private final List<Happening> strikes;
    private final Optional<Happening> off;

    Forced(Course course, Injection.Forcing forcing, int entry, Moment.Known strike) {
        this.trace = course.trace();
        this.timeline = course.timeline();
        this.forcing = forcing;
        this.entry = entry;
        this.strike = strike;
        this.strikes = trace.events().stream()
                .filter(one -> one.is(EventKind.ENTRY_ON, entry))
                .toList();
        this.off =
                offAfter(strikes.isEmpty() ? 0 : strikes.get(strikes.size() - 1).number());
    }

    /** The end of the strike of an event. It may be that of the safe stop, so all events count here. */
    private Optional<Happening> offAfter(int event) {
        return trace.events().stream()
                .filter(one -> one.is(EventKind.ENTRY_OFF, entry) && one.number() > event)
                .findFirst();
    }

    /** The newest strike that was seen. */
    Optional<Happening> lastStrike() {
        return strikes.isEmpty() ? Optional.empty() : Optional.of(strikes.get(strikes.size() - 1));
    }

    boolean isShortByNature() {
        return forcing.fault() instanceof Fault.Spike;
    }

    /** What ended the newest strike. */
    Optional<EntryEnd> ended() {
        return off.map(one -> EntryEnd.of(one.b()));
    }

    /** The end of the newest strike. */
    Optional<Happening> off() {
        return off;
    }

    /** Last tick in which it was on, as far as that was seen. */
    int lastTick() {
        return lastTick(off);
    }

    private int lastTick(Optional<Happening> its) {
        if (its.isPresent()) {
            int tick = its.get().tick();
            int row = trace.rowAtOrAfter(tick);
            // Where the stop releases it in mid-tick, the record of that tick still shows it.
            boolean isStillOn = row < trace.rows() && trace.tick(row) == tick && isActive(row);
            return isStillOn ? tick : tick - 1;
        }
        for (int row = trace.rows() - 1; row >= 0; row--) {
            if (isActive(row)) {
                return trace.tick(row);
            }
        }
        return strike.tick();
    }

    private boolean isActive(int row) {
        return (trace.active(row) >>> entry & 1) != 0;
    }

    /** Tells whether a record shows the control code being told something else than what was real. */
    boolean changedSomething() {
        int channel = forcing.channel().index();
        int last = lastTick();
        for (int row = trace.rowAtOrAfter(strike.tick()); row < trace.rows(); row++) {
            int first = trace.tick(row) - trace.periodTicks() + 1;
            if (first > last) {
                break;
            }
            boolean wasOn = isActive(row) || trace.periodTicks() > 1;
            if (wasOn && trace.has(row, channel) && trace.wasForced(row, channel) && differs(row, channel)) {
                return true;
            }
        }
        return false;
    }

    private boolean differs(int row, int channel) {
        return trace.told(row, channel) != trace.real(row, channel)
                || trace.leastTold(row, channel) != trace.leastReal(row, channel)
                || trace.greatestTold(row, channel) != trace.greatestReal(row, channel);
    }

    /** How it stood with the override at a tick. */
    State stateAt(int tick) {
        Optional<Happening> its = offAfter(strikes.stream()
                .filter(one -> one.tick() <= tick)
                .mapToInt(Happening::number)
                .max()
                .orElse(0));
        if (its.isPresent() && lastTick(its) < tick) {
            EntryEnd end = EntryEnd.of(its.get().b());
            return end == EntryEnd.UNTIL ? State.ENDED_AS_ASKED : State.ENDED_BEFORE;
        }
        if (its.isPresent()) {
            return State.ON;
        }
        int row = trace.rowAtOrAfter(tick);
        while (row < trace.rows()) {
            if (isActive(row)) {
                return State.ON;
            }
            row++;
        }
        return timeline.hasAllEvents(strike.tick(), tick) ? State.ON : State.NOT_KNOWN;
    }

    /** How it may stand with an override. */
    enum State {
        /** It is on. */
        ON,
        /** It ended because what the script wanted it to last for, until, came about. */
        ENDED_AS_ASKED,
        /** It ended by its own time, or because its story no longer held. */
        ENDED_BEFORE,
        /** It may have ended unseen. */
        NOT_KNOWN
    }
}
