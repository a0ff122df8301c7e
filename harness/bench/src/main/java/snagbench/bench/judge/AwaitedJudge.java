package snagbench.bench.judge;

import java.util.Optional;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Expectation.Window;
import snagbench.bench.trace.Trace;

/** Judges whether something came about within its window, and tells by how much it did or did not. */
final class AwaitedJudge {
    private final Course course;
    private final Timeline timeline;
    private final Awaited awaited;
    private final Expectation expectation;
    private final Window window;
    private final Anchor after;

    AwaitedJudge(Course course, Awaited awaited, Expectation expectation, Window window, Anchor after) {
        this.course = course;
        this.timeline = course.timeline();
        this.awaited = awaited;
        this.expectation = expectation;
        this.window = window;
        this.after = after;
    }

    Outcome judge() {
        Findings to = new Findings(expectation.name(), expectation.place())
                .expected(awaited.what() + " " + Words.window(window, after));
        Moment anchor = course.moment(after);
        if (anchor instanceof Moment.Missing missing) {
            Finding finding =
                    to.butWas("not judged: " + missing.why()).where(-1).of(Verdict.INCONCLUSIVE);
            return new Outcome(finding, notMet(missing.settled()));
        }
        Moment.Known from = (Moment.Known) anchor;
        Arrival arrival = new Arrival(timeline, from, window);
        awaited.gather(from, arrival);
        if (arrival.isInTime()) {
            return inTime(to, from, arrival);
        }
        if (arrival.isMissed()) {
            return new Outcome(
                    arrival.isTooEarly() ? tooEarly(to, from, arrival) : tooLate(to, from, arrival), notMet(true));
        }
        return new Outcome(unsettled(to, from, arrival), notMet(false));
    }

    private Moment notMet(boolean settled) {
        String seen = settled ? "" : "seen to be ";
        return new Moment.Missing(settled, 0, "its anchor \"" + expectation.name() + "\" was not " + seen + "met");
    }

    private Outcome inTime(Findings to, Moment.Known from, Arrival arrival) {
        int tick = arrival.lastTick();
        long micros = timeline.latest(tick);
        long margin = arrival.closes() - micros;
        to.met(tick, micros).margin(margin);
        Optional<Awaited.Spoilt> spoilt = awaited.spoilt(from, arrival);
        if (spoilt.isPresent()) {
            Verdict verdict = spoilt.get().verdict();
            to.butWas(spoilt.get().text()).fact("reached", came(from, arrival)).where(tick);
            return new Outcome(to.of(verdict), notMet(verdict == Verdict.FAIL));
        }
        to.fact("reached", came(from, arrival) + " (" + Words.span(margin) + " to spare)");
        Moment moment = arrival.isExact()
                ? awaited.momentAt(tick, micros)
                : new Moment.Missing(
                        false,
                        timeline.earliest(arrival.firstTick()),
                        "it is not known in which tick its anchor \"" + expectation.name() + "\" was met");
        return new Outcome(to.of(Verdict.PASS), moment);
    }

    private Finding tooEarly(Findings to, Moment.Known from, Arrival arrival) {
        if (!arrival.wasSeen()) {
            return to.butWas("it came unseen, before the window").where(-1).of(Verdict.FAIL);
        }
        int tick = arrival.lastTick();
        long early = arrival.opens() - timeline.latest(tick);
        return to.met(tick, timeline.latest(tick))
                .margin(-early)
                .butWas(came(from, arrival) + " (" + Words.span(early) + " too early)")
                .where(tick)
                .of(Verdict.FAIL);
    }

    private Finding tooLate(Findings to, Moment.Known from, Arrival arrival) {
        int closing = firstRowPast(arrival.closes());
        to.butWas(awaited.insteadAt(closing, from) + " at " + since(from, timeline.earliest(closing)));
        if (!arrival.wasSeen()) {
            String end = since(from, timeline.seenThroughMicros());
            return to.fact("reached", "not by the end of the trace at " + end)
                    .where(closing)
                    .of(Verdict.FAIL);
        }
        int tick = arrival.lastTick();
        long late = timeline.latest(tick) - arrival.closes();
        return to.met(tick, timeline.latest(tick))
                .margin(-late)
                .fact("reached", came(from, arrival) + " (" + Words.span(late) + " late)")
                .where(tick)
                .of(Verdict.FAIL);
    }

    private Finding unsettled(Findings to, Moment.Known from, Arrival arrival) {
        int first = awaited.firstTick(from);
        if (arrival.isOpen() && !arrival.wasSeen()) {
            String what = timeline.wasStopped() ? "the rig made its safe stop" : "the trace ends";
            to.butWas("not judged to the end: " + what + " at " + since(from, timeline.seenThroughMicros()));
        } else {
            int last = arrival.wasSeen() ? arrival.lastTick() : firstRowPast(arrival.closes());
            to.butWas("not known: " + Holes.between(timeline, first, last));
        }
        if (arrival.wasSeen()) {
            to.fact("reached", came(from, arrival));
        }
        return to.where(arrival.wasSeen() ? arrival.lastTick() : first).of(Verdict.INCONCLUSIVE);
    }

    private String came(Moment.Known from, Arrival arrival) {
        String last = since(from, timeline.latest(arrival.lastTick()));
        if (arrival.isExact()) {
            return awaited.what() + " at " + last;
        }
        if (arrival.firstTick() == arrival.lastTick()) {
            return awaited.what() + " at " + last + " at the latest";
        }
        return awaited.what() + " between " + since(from, timeline.earliest(arrival.firstTick())) + " and " + last;
    }

    private static String since(Moment.Known from, long micros) {
        return Words.at(micros - from.micros());
    }

    /** The tick of the first record behind a time; of the last record where there is none. */
    private int firstRowPast(long micros) {
        Trace trace = course.trace();
        int row = 0;
        while (row < trace.rows() && trace.tick(row) < timeline.lastTick() && trace.micros(row) <= micros) {
            row++;
        }
        return row < trace.rows() ? trace.tick(row) : 0;
    }
}
