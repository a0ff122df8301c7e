package snagbench.bench.judge;

import java.util.Optional;
import snagbench.bench.script.Expectation;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/** Judges whether a fail-safe stayed quiet from arming to the script's end. */
final class MustNotFireJudge {
    private final Course course;
    private final Timeline timeline;
    private final Expectation.MustNotFire expectation;

    MustNotFireJudge(Course course, Expectation.MustNotFire expectation) {
        this.course = course;
        this.timeline = course.timeline();
        this.expectation = expectation;
    }

    Finding judge() {
        Findings to = new Findings(expectation.name(), expectation.place())
                .expected(expectation.failSafe().name() + " silent to the script's end");
        Ending ending = course.ending();
        Optional<Happening> report = timeline.events().stream()
                .filter(one -> one.is(EventKind.ANSWERED, expectation.failSafe().number()) && one.tick() >= 0)
                .findFirst();
        if (report.isPresent() && report.get().micros() <= ending.notBeforeMicros()) {
            return fired(to, report.get()).of(Verdict.FAIL);
        }
        if (report.isPresent() && ending.micros().isEmpty()) {
            return fired(to, report.get())
                    .fact("note", "it is not known whether that was before the script's end")
                    .of(Verdict.INCONCLUSIVE);
        }
        if (!ending.isSeen(timeline)) {
            return to.butWas("not judged to the script's end: what counts of the trace ends "
                            + since(timeline.seenThroughMicros()))
                    .where(timeline.lastTick())
                    .of(Verdict.INCONCLUSIVE);
        }
        int last = lastTick(ending);
        if (!timeline.hasAllEvents(0, last)) {
            return to.butWas("not known: " + Holes.between(timeline, 0, last))
                    .where(last)
                    .of(Verdict.INCONCLUSIVE);
        }
        return to.of(Verdict.PASS);
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

    private int lastTick(Ending ending) {
        Trace trace = course.trace();
        int row = 0;
        while (trace.tick(row) < timeline.lastTick() && trace.micros(row) < ending.notBehindMicros()) {
            row++;
        }
        return trace.tick(row);
    }
}
