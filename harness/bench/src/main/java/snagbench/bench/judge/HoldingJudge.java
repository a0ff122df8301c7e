package snagbench.bench.judge;

import java.util.OptionalLong;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.trace.Trace;

/**
 * Judges whether a condition begins to hold within a window and holds for a time: F over the window of G over the time, or
 * of G to the script's end. Its moment is the first tick from which on it does.
 */
final class HoldingJudge {
    private static final int NONE = Integer.MAX_VALUE;

    private final Course course;
    private final Timeline timeline;
    private final Trace trace;
    private final Expectation.Timed expectation;
    private final Condition condition;
    private final OptionalLong forMicros;
    private final Signal signal;
    private final RowCursor rows;

    HoldingJudge(Course course, Expectation.Stays stays) {
        this(course, stays, stays.condition(), OptionalLong.of(stays.forMicros()));
    }

    HoldingJudge(Course course, Expectation.Settles settles) {
        this(course, settles, settles.condition(), settles.forMicros());
    }

    private HoldingJudge(Course course, Expectation.Timed expectation, Condition condition, OptionalLong forMicros) {
        this.course = course;
        this.timeline = course.timeline();
        this.trace = course.trace();
        this.expectation = expectation;
        this.condition = condition;
        this.forMicros = forMicros;
        this.signal = course.signals().of(condition);
        this.rows = new RowCursor(trace);
    }

    Outcome judge() {
        String time = forMicros.isPresent() ? "for " + Words.duration(forMicros.getAsLong()) : "to the script's end";
        Findings to = new Findings(expectation.name(), expectation.place())
                .expected(condition.show() + " " + time + ", beginning "
                        + Words.window(expectation.within(), expectation.after()));
        Moment anchor = course.moment(expectation.after());
        if (anchor instanceof Moment.Missing missing) {
            return new Outcome(
                    to.butWas("not judged: " + missing.why()).where(-1).of(Verdict.INCONCLUSIVE),
                    Moment.notMet(expectation.name(), missing.settled()));
        }
        Moment.Known from = (Moment.Known) anchor;
        Search search = new Search(from);
        search.run();
        if (search.firstCertain != NONE) {
            return held(to, search);
        }
        boolean settled = search.firstPossible == NONE && !search.isOpen();
        Finding finding = settled ? missed(to, search) : unsettled(to, search);
        return new Outcome(finding, Moment.notMet(expectation.name(), settled));
    }

    private Outcome held(Findings to, Search search) {
        int tick = search.firstCertain;
        long micros = timeline.latest(tick);
        long margin = search.isAtOnce() ? search.spare(tick) : search.closes - micros;
        if (course.part() == 0) {
            to.met(tick, micros);
        }
        if (!search.isAtOnce() || forMicros.isPresent()) {
            to.margin(margin);
        }
        to.fact("reached", condition.show() + " from " + search.since(micros) + " on" + heldFor(search, tick));
        search.tellClosest(to, tick);
        boolean isExact = tick == search.firstPossible && timeline.earliest(tick) == micros;
        Moment moment = isExact
                ? new Moment.Known(tick, micros, 0, tick + 1)
                : new Moment.Missing(
                        false,
                        timeline.earliest(Math.min(tick, search.firstPossible)),
                        "it is not known in which tick its anchor \"" + expectation.name() + "\" was met");
        return new Outcome(to.of(Verdict.PASS), moment);
    }

    private String heldFor(Search search, int tick) {
        int broken = search.brokenAfter(tick);
        return broken == NONE ? "" : ", until " + search.since(timeline.latest(broken));
    }

    private Finding missed(Findings to, Search search) {
        search.tellNearest(to);
        search.findLate();
        if (search.longestTick == NONE) {
            int at = search.lastInWindow == NONE ? timeline.lastTick() : search.lastInWindow;
            if (forMicros.isPresent()) {
                to.margin(-forMicros.getAsLong());
            }
            to.butWas("it never held: " + signal.reading(at) + " at " + search.since(timeline.latest(at)));
        } else {
            forMicros.ifPresent(asked -> to.margin(search.longest - asked));
            int broken = search.brokenAfter(search.longestTick);
            to.butWas("it held from " + search.since(timeline.latest(search.longestTick)) + " on, but only for "
                    + Words.span(search.longest)
                    + (broken == NONE
                            ? ""
                            : ": " + signal.reading(broken) + " at " + search.since(timeline.latest(broken))));
        }
        if (search.firstLate != NONE && !search.isAtOnce()) {
            long late = timeline.latest(search.firstLate) - search.closes;
            to.margin(-late)
                    .fact(
                            "reached",
                            "from " + search.since(timeline.latest(search.firstLate)) + " on (" + Words.span(late)
                                    + " late)");
        }
        int at = search.longestTick == NONE ? search.lastInWindow : search.brokenAfter(search.longestTick);
        return to.where(at == NONE ? -1 : at).of(Verdict.FAIL);
    }

    /** Only what is missing of a time that it may have begun with leaves it open; else it is the end of what was seen. */
    private Finding unsettled(Findings to, Search search) {
        int possible = search.firstPossible;
        int unknown = possible == NONE ? NONE : search.firstUnknownFrom(possible);
        boolean endsFirst = unknown == NONE && (possible == NONE || !search.isSeenFrom(possible));
        if (endsFirst) {
            to.butWas("not judged to its end: what counts of the trace ends at "
                    + search.since(timeline.seenThroughMicros()));
            return to.where(timeline.lastTick()).of(Verdict.INCONCLUSIVE);
        }
        int at = unknown == NONE ? possible : unknown;
        return to.butWas("not known: " + Holes.between(timeline, at, Math.max(at, search.lastUnknown)))
                .where(at)
                .of(Verdict.INCONCLUSIVE);
    }

    /** Goes through the ticks backwards, so that of each it is known when what holds there is broken next. */
    private final class Search {
        private final Moment.Known from;
        private final long opens;
        private final long closes;
        private final int[] brokenNext;
        private final long endNotBefore;
        private final long endNotBehind;
        private final boolean endSeen;
        private int firstCertain = NONE;
        private int firstPossible = NONE;
        private int firstLate = NONE;
        private int lastUnknown = -1;
        private int lastInWindow = NONE;
        private int longestTick = NONE;
        private long longest = -1;

        Search(Moment.Known from) {
            this.from = from;
            this.opens = from.micros() + expectation.within().leastMicros();
            this.closes = from.micros() + expectation.within().mostMicros();
            Ending ending = forMicros.isPresent() ? null : course.endingWithoutWhatHangsOnIt();
            this.endNotBefore = ending == null ? 0 : ending.notBeforeMicros();
            this.endNotBehind = ending == null ? 0 : ending.notBehindMicros();
            this.endSeen = ending != null && ending.isSeen(timeline);
            this.brokenNext = new int[Math.max(0, timeline.lastKnownTick() - from.tick() + 1)];
        }

        void run() {
            int notCertain = NONE;
            int broken = NONE;
            for (int tick = timeline.lastKnownTick(); tick >= from.tick(); tick--) {
                int truth = signal.at(tick);
                notCertain = truth == Truth.TRUE ? notCertain : tick;
                broken = truth == Truth.FALSE ? tick : Math.min(broken, brokenWithin(tick));
                brokenNext[tick - from.tick()] = broken;
                lastUnknown = truth == Truth.UNKNOWN ? Math.max(lastUnknown, tick) : lastUnknown;
                if (timeline.earliest(tick) <= closes) {
                    begins(tick, truth, notCertain, broken);
                }
            }
        }

        /** Where it began to hold too late; only a miss wants to know. */
        void findLate() {
            int notCertain = NONE;
            for (int tick = timeline.lastKnownTick(); tick >= from.tick() && timeline.earliest(tick) > closes; tick--) {
                boolean isCertain = signal.at(tick) == Truth.TRUE;
                notCertain = isCertain ? notCertain : tick;
                firstLate = isCertain && lasts(tick, notCertain) ? tick : firstLate;
            }
        }

        private boolean lasts(int tick, int notCertain) {
            return isSeenFrom(tick) && (notCertain == NONE || isBehind(notCertain, tick));
        }

        /** Where least and greatest of a record tell that it is broken in some tick of it: the last of them, else none. */
        private int brokenWithin(int tick) {
            if (trace.periodTicks() == 1) {
                return NONE;
            }
            int row = rows.rowAtOrAfter(tick);
            boolean begins = row < trace.rows() && trace.tick(row) - trace.periodTicks() + 1 == tick;
            return begins && (signal.somewhere(row) & Truth.FALSE) != 0 ? trace.tick(row) : NONE;
        }

        private void begins(int tick, int truth, int notCertain, int broken) {
            boolean mayLast = (truth & Truth.TRUE) != 0 && (broken == NONE || mayBeBehind(broken, tick));
            boolean lasts = truth == Truth.TRUE && lasts(tick, notCertain);
            boolean mayBeIn = timeline.latest(tick) >= opens && timeline.earliest(tick) <= closes;
            boolean isIn = timeline.earliest(tick) >= opens && timeline.latest(tick) <= closes;
            firstPossible = mayBeIn && mayLast ? tick : firstPossible;
            firstCertain = isIn && lasts ? tick : firstCertain;
            lastInWindow = mayBeIn && lastInWindow == NONE ? tick : lastInWindow;
            if (mayBeIn && truth == Truth.TRUE && broken != NONE) {
                long held = timeline.latest(broken) - timeline.earliest(tick);
                if (held >= longest) {
                    longest = held;
                    longestTick = tick;
                }
            }
        }

        /** Tells whether a tick lies, or may lie, behind the time for which it must hold from another on. */
        private boolean mayBeBehind(int broken, int begin) {
            return forMicros.isPresent()
                    ? timeline.latest(broken) - timeline.earliest(begin) > forMicros.getAsLong()
                    : timeline.latest(broken) > endNotBefore;
        }

        private boolean isBehind(int tick, int begin) {
            return forMicros.isPresent()
                    ? timeline.earliest(tick) - timeline.latest(begin) > forMicros.getAsLong()
                    : timeline.earliest(tick) > endNotBehind;
        }

        private boolean isSeenFrom(int begin) {
            return forMicros.isPresent()
                    ? timeline.seenThroughMicros() >= timeline.latest(begin) + forMicros.getAsLong()
                    : endSeen;
        }

        /** The first tick of the time that it may have begun with in which it is not known whether it held. */
        int firstUnknownFrom(int begin) {
            int tick = begin;
            while (tick <= timeline.lastKnownTick() && !isBehind(tick, begin)) {
                if (signal.at(tick) == Truth.UNKNOWN) {
                    return tick;
                }
                tick++;
            }
            return NONE;
        }

        /** Tells whether it may still begin behind what was seen. */
        boolean isOpen() {
            return timeline.seenThroughMicros() < closes;
        }

        /** Tells whether it must begin at the anchor itself, so that being late has no measure. */
        boolean isAtOnce() {
            return opens == closes;
        }

        int brokenAfter(int tick) {
            return brokenNext[tick - from.tick()];
        }

        /** How much longer than asked for it held for certain, as far as was seen. */
        long spare(int tick) {
            int open = tick;
            while (open <= timeline.lastKnownTick() && signal.at(open) == Truth.TRUE) {
                open++;
            }
            long until = open > timeline.lastKnownTick() ? timeline.seenThroughMicros() : timeline.earliest(open);
            return until - timeline.latest(tick) - forMicros.orElse(0);
        }

        /** Of a miss: the best that the worst reading of any time that it could have begun with was. */
        void tellNearest(Findings to) {
            if (signal.slack().isEmpty()) {
                return;
            }
            Slack slack = signal.slack().get();
            Extremes worst = new Extremes();
            int next = from.tick();
            long best = Long.MIN_VALUE;
            for (int begin = from.tick(); begin <= timeline.lastTick(); begin++) {
                for (; next <= timeline.lastTick() && !mayBeBehind(next, begin); next++) {
                    worst.add(next, slack.isOpen(next) ? Cells.LEAST : -slack.greatest(next));
                }
                worst.dropBefore(begin);
                boolean mayBeIn = timeline.latest(begin) >= opens && timeline.earliest(begin) <= closes;
                if (mayBeIn && next > begin) {
                    best = Math.max(best, -worst.greatest());
                }
            }
            if (best > Cells.LEAST && best <= 0) {
                to.value(slack.channel(), best);
            }
        }

        String since(long micros) {
            return Words.at(micros - from.micros());
        }

        /** The least distance from the limit while it had to hold. */
        void tellClosest(Findings to, int begin) {
            if (signal.slack().isEmpty()) {
                return;
            }
            Slack slack = signal.slack().get();
            int worst = begin;
            long least = slack.least(begin);
            for (int tick = begin; tick <= timeline.lastKnownTick() && !isBehind(tick, begin); tick++) {
                long its = slack.least(tick);
                worst = its < least ? tick : worst;
                least = Math.min(least, its);
            }
            to.value(slack.channel(), least);
            to.fact(
                    "closest",
                    slack.name() + " " + slack.value(worst, true) + " at " + since(timeline.latest(worst)) + " ("
                            + Readings.show(slack.channel(), least) + " to spare)");
        }
    }
}
