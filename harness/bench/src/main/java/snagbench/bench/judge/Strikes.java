package snagbench.bench.judge;

import java.util.Optional;
import java.util.OptionalInt;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/**
 * When injections struck: in the first tick with the override. What the control code does in that very tick may already
 * be its answer, since it is told the override in it.
 */
final class Strikes {
    private final Course course;
    private final FaultScript script;
    private final Trace trace;
    private final Timeline timeline;

    Strikes(Course course) {
        this.course = course;
        this.script = course.script();
        this.trace = course.trace();
        this.timeline = course.timeline();
    }

    /**
     * When one struck.
     *
     * @param injection its index
     * @param time which of its strikes, from 1
     */
    Moment moment(int injection, int time) {
        if (script.injections().isEmpty()) {
            return new Moment.Missing(true, 0, "nothing is injected");
        }
        int entry = script.firstEntryOfInjection(injection);
        Optional<Happening> on = timeline.events().stream()
                .filter(one -> one.is(EventKind.ENTRY_ON, entry) && one.b() == time)
                .findFirst();
        if (on.isPresent()) {
            Happening one = on.get();
            return new Moment.Known(one.tick(), one.micros(), one.number(), one.tick());
        }
        OptionalInt row = time == 1 ? firstActiveRow(entry) : OptionalInt.empty();
        return row.isPresent() ? seenIn(row.getAsInt(), injection) : notSeen(injection, time);
    }

    private OptionalInt firstActiveRow(int entry) {
        for (int row = 0; row < trace.rows() && trace.tick(row) <= timeline.lastTick(); row++) {
            if ((trace.active(row) >>> entry & 1) != 0) {
                return OptionalInt.of(row);
            }
        }
        return OptionalInt.empty();
    }

    /** A record shows it on, but the event of its strike is lost. */
    private Moment seenIn(int row, int injection) {
        boolean isStrike = row > 0 && trace.tick(row - 1) == trace.tick(row) - 1;
        boolean mayHaveStruckBefore =
                script.injections().get(injection).trigger().times() != 1
                        && trace.gaps().stream().anyMatch(gap -> gap.touches(0, trace.tick(row)));
        if (isStrike && !mayHaveStruckBefore) {
            return new Moment.Known(trace.tick(row), trace.micros(row), 0, trace.tick(row));
        }
        long notBefore = row == 0 || mayHaveStruckBefore ? 0 : trace.micros(row - 1) + 1;
        return new Moment.Missing(false, notBefore, "it is not known when " + course.nameOf(injection) + " struck");
    }

    private Moment notSeen(int injection, int time) {
        Injection its = script.injections().get(injection);
        Anchor after = its.trigger().after();
        boolean cannotCome = !(after instanceof Anchor.OfBegin)
                && course.moment(after) instanceof Moment.Missing missing
                && missing.settled();
        boolean over = cannotCome || course.stageTimedOut().isPresent();
        boolean allSeen = timeline.hasAllEvents(0, timeline.lastTick());
        String what = course.nameOf(injection) + (allSeen ? " never struck" : " was not seen to strike");
        return new Moment.Missing(
                over,
                allSeen ? timeline.seenThroughMicros() + 1 : 0,
                what + (time == 1 ? "" : " for the " + Words.ordinal(time) + " time") + " ("
                        + its.place().brief() + ")");
    }
}
