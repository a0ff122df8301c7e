package snagbench.bench.judge;

import snagbench.bench.script.Expectation;
import snagbench.bench.trace.Happening;
import snagbench.wire.EventKind;

/** That a fail-safe does not report. */
final class Silence implements OverStretch.Judged {
    private final Course course;
    private final Timeline timeline;
    private final Expectation.MustNotFire expectation;

    Silence(Course course, Expectation.MustNotFire expectation) {
        this.course = course;
        this.timeline = course.timeline();
        this.expectation = expectation;
    }

    @Override
    public String what() {
        return expectation.failSafe().name() + " silent";
    }

    @Override
    public Finding over(Extent extent, Findings to) {
        Happening maybe = null;
        for (Happening one : timeline.events()) {
            if (!one.is(EventKind.ANSWERED, expectation.failSafe().number())
                    || !extent.mayHaveEvent(one.tick(), one.number())) {
                continue;
            }
            if (extent.hasEvent(one.tick(), one.number())) {
                return fired(to, one, extent);
            }
            maybe = maybe == null ? one : maybe;
        }
        if (maybe != null) {
            return fired(to, maybe)
                    .fact("note", "it is not known whether that was before " + extent.end())
                    .of(Verdict.INCONCLUSIVE);
        }
        if (!extent.isSeen()) {
            return OverStretch.notSeen(timeline, extent, to);
        }
        int first = firstTick(extent);
        int last = lastTick(extent, first);
        if (!timeline.hasAllEvents(first, last)) {
            return to.butWas("not known: " + Holes.between(timeline, first, last))
                    .where(last)
                    .of(Verdict.INCONCLUSIVE);
        }
        new Edges(timeline, extent).tellHeld(to, tick -> !timeline.hasAllEvents(tick, tick) || reportsIn(tick));
        return to.of(Verdict.PASS);
    }

    private boolean reportsIn(int tick) {
        return timeline.events().stream()
                .anyMatch(one -> one.tick() == tick
                        && one.is(EventKind.ANSWERED, expectation.failSafe().number()));
    }

    /** It has fired. A report has no length, so a margin there is only where the edges of the stretch are times. */
    private Finding fired(Findings to, Happening first, Extent extent) {
        if (extent.isWindow()) {
            Edges edges = new Edges(timeline, extent);
            timeline.events().stream()
                    .filter(one ->
                            one.is(EventKind.ANSWERED, expectation.failSafe().number())
                                    && extent.hasEvent(one.tick(), one.number()))
                    .forEach(one -> edges.brokenAt(one.tick()));
            edges.tellBroken(to);
        }
        return fired(to, first).of(Verdict.FAIL);
    }

    private static int firstTick(Extent extent) {
        int tick = extent.firstTick();
        while (tick < extent.lastTick() && !extent.mayHave(tick)) {
            tick++;
        }
        return tick;
    }

    private static int lastTick(Extent extent, int first) {
        int tick = first;
        while (tick < extent.lastEventTick() && (!extent.isBehind(tick + 1) || extent.mayHaveEvents(tick + 1))) {
            tick++;
        }
        return tick;
    }

    private Findings fired(Findings to, Happening report) {
        return to.butWas(expectation.failSafe().name() + " answered " + since(report.micros()))
                .met(report.tick(), report.micros())
                .where(report.tick());
    }

    private String since(long micros) {
        return course.strike(0) instanceof Moment.Known strike
                ? "at " + Words.at(micros - strike.micros()) + " from " + course.nameOf(0)
                : "at " + Words.at(micros) + " from arming";
    }
}
