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
                return fired(to, one).of(Verdict.FAIL);
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
        return to.of(Verdict.PASS);
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
        while (tick < extent.lastEventTick() && !extent.isBehind(tick + 1)) {
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
