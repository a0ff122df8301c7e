package snagbench.bench.judge;

import java.util.Optional;
import snagbench.bench.script.Expectation;
import snagbench.bench.trace.Trace;

/** Judges whether something came about within its window, and tells by how much it did or did not. */
final class AwaitedJudge {
    private final Course course;
    private final Timeline timeline;
    private final Awaited awaited;
    private final Expectation.Timed expectation;

    AwaitedJudge(Course course, Awaited awaited, Expectation.Timed expectation) {
        this.course = course;
        this.timeline = course.timeline();
        this.awaited = awaited;
        this.expectation = expectation;
    }

    Outcome judge() {
        Findings to = new Findings(expectation.name(), expectation.place())
                .expected(awaited.what() + " " + Words.window(expectation.within(), expectation.after()));
        Moment anchor = course.moment(expectation.after());
        if (anchor instanceof Moment.Missing missing) {
            Finding finding =
                    to.butWas("not judged: " + missing.why()).where(-1).of(Verdict.INCONCLUSIVE);
            return new Outcome(finding, Moment.notMet(expectation.name(), missing.settled()));
        }
        Moment.Known from = (Moment.Known) anchor;
        Arrival arrival = new Arrival(timeline, from, expectation.within());
        awaited.gather(from, arrival);
        // Only times of the clock that began with arming are told as such.
        if (course.part() == 0) {
            to.limit(arrival.closes());
        }
        if (arrival.isInTime()) {
            return inTime(to, from, arrival);
        }
        if (arrival.isMissed()) {
            return new Outcome(
                    arrival.isTooEarly() ? tooEarly(to, from, arrival) : tooLate(to, from, arrival),
                    Moment.notMet(expectation.name(), true));
        }
        return new Outcome(unsettled(to, from, arrival), Moment.notMet(expectation.name(), false));
    }

    private Outcome inTime(Findings to, Moment.Known from, Arrival arrival) {
        int tick = arrival.lastTick();
        long margin = arrival.closes() - arrival.atLatest();
        long lower = expectation.within().leastMicros() > 0 ? arrival.atEarliest() - arrival.opens() : margin;
        met(to, arrival).margin(Math.min(margin, lower));
        Optional<Awaited.Spoilt> spoilt = awaited.spoilt(from, arrival);
        if (spoilt.isPresent()) {
            Verdict verdict = spoilt.get().verdict();
            to.butWas(spoilt.get().text()).fact("reached", came(from, arrival)).where(tick);
            return new Outcome(to.of(verdict), Moment.notMet(expectation.name(), verdict == Verdict.FAIL));
        }
        to.fact("reached", came(from, arrival) + " (" + Words.span(margin) + " to spare)");
        nearest(to, from, arrival, Verdict.PASS);
        Moment moment = arrival.isExact() || !awaited.hasTick()
                ? awaited.momentAt(tick, arrival.latest())
                : new Moment.Missing(
                        false,
                        timeline.earliest(arrival.leastTick()),
                        "it is not known in which tick its anchor \"" + expectation.name() + "\" was met");
        return new Outcome(to.of(Verdict.PASS), moment);
    }

    /** Only ticks of the clock that began with arming are told as such. */
    private Findings met(Findings to, Arrival arrival) {
        return awaited.hasTick() && arrival.wasSeen() && course.part() == 0
                ? to.met(arrival.lastTick(), arrival.latest())
                : to;
    }

    private Finding tooEarly(Findings to, Moment.Known from, Arrival arrival) {
        if (!arrival.wasSeen()) {
            return to.butWas("it came unseen, before the window").where(-1).of(Verdict.FAIL);
        }
        long early = arrival.opens() - arrival.latest();
        return met(to, arrival)
                .margin(-early)
                .butWas(came(from, arrival) + " (" + Words.span(early) + " too early)")
                .where(arrival.lastTick())
                .of(Verdict.FAIL);
    }

    private Finding tooLate(Findings to, Moment.Known from, Arrival arrival) {
        int closing = firstRowPast(arrival.closes());
        to.butWas(awaited.insteadAt(closing, from) + " at " + since(from, timeline.earliest(closing))
                + awaited.sinceAt(closing, from));
        nearest(to, from, arrival, Verdict.FAIL);
        if (!arrival.wasSeen()) {
            String end = since(from, timeline.seenThroughMicros());
            // No margin: how late that is hangs on how long somebody listened.
            long late = timeline.seenThroughMicros() - arrival.closes();
            return to.fact(
                            "reached",
                            "not by the end of the trace at " + end + " (" + Words.span(late) + " late at least)")
                    .where(closing)
                    .of(Verdict.FAIL);
        }
        long late = arrival.latest() - arrival.closes();
        if (arrival.latest() == Timeline.NEVER) {
            late = arrival.earliest() - arrival.closes();
        }
        return met(to, arrival)
                .margin(-late)
                .fact("reached", came(from, arrival) + " (" + Words.span(late) + " late)")
                .where(arrival.lastTick())
                .of(Verdict.FAIL);
    }

    private Finding unsettled(Findings to, Moment.Known from, Arrival arrival) {
        int first = awaited.firstTick(from);
        if (arrival.isOpen() && !arrival.wasSeen()) {
            String what = timeline.wasStopped() ? "the rig made its safe stop" : "the trace ends";
            to.butWas("not judged to the end: " + what + " at " + since(from, timeline.seenThroughMicros()));
        } else if (!awaited.hasTick()) {
            to.butWas("it may have come on either side of an edge of the window: only the host timed it");
        } else {
            int last = arrival.wasSeen() ? arrival.lastTick() : firstRowPast(arrival.closes());
            to.butWas("not known: " + Holes.between(timeline, first, last));
        }
        if (arrival.wasSeen()) {
            to.fact("reached", came(from, arrival));
        }
        return to.where(arrival.wasSeen() ? arrival.lastTick() : first).of(Verdict.INCONCLUSIVE);
    }

    /** The best robustness in value of the window's ticks, where it says the same as the verdict. */
    private void nearest(Findings to, Moment.Known from, Arrival arrival, Verdict verdict) {
        Optional<Slack> slack = awaited.slack();
        if (slack.isEmpty()) {
            return;
        }
        Slack its = slack.get();
        int best = -1;
        long most = Long.MIN_VALUE;
        for (int tick = awaited.firstTick(from);
                tick <= timeline.lastKnownTick() && timeline.earliest(tick) <= arrival.closes();
                tick++) {
            boolean isIn = timeline.earliest(tick) >= arrival.opens() && timeline.latest(tick) <= arrival.closes();
            if (isIn && !its.isOpen(tick) && robustness(its, tick, verdict) > most) {
                best = tick;
                most = robustness(its, tick, verdict);
            }
        }
        if (best < 0) {
            return;
        }
        long steps = robustness(its, best, verdict);
        if (verdict == Verdict.PASS ? steps >= 0 : steps <= 0) {
            to.value(its.channel(), steps);
            if (verdict == Verdict.FAIL) {
                to.fact(
                        "closest",
                        its.name() + " " + its.value(best, false) + " at " + since(from, timeline.latest(best)) + " ("
                                + Readings.show(its.channel(), -steps) + " short)");
            }
        }
    }

    /** What is certain of it: at least so good where it is met, at most so good where it is missed. */
    private static long robustness(Slack slack, int tick, Verdict verdict) {
        return verdict == Verdict.PASS ? slack.least(tick) : slack.greatest(tick);
    }

    private String came(Moment.Known from, Arrival arrival) {
        if (!arrival.wasSeen()) {
            return awaited.what() + " unseen, at " + since(from, arrival.atLatest()) + " at the latest";
        }
        if (arrival.latest() == Timeline.NEVER) {
            return awaited.what() + " behind " + since(from, arrival.earliest());
        }
        String last = since(from, arrival.latest());
        if (arrival.isExact()) {
            return awaited.what() + " at " + last;
        }
        if (awaited.hasTick() && arrival.firstTick() == arrival.lastTick()) {
            return awaited.what() + " at " + last + " at the latest";
        }
        return awaited.what() + " between " + since(from, arrival.earliest()) + " and " + last;
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
