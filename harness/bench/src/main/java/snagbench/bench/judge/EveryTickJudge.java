package snagbench.bench.judge;

import java.util.Optional;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Compares;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Condition.Term;
import snagbench.bench.script.Expectation;
import snagbench.bench.trace.Trace;

/** Judges what must hold, or must not hold, in every tick from the end of the beginning to the script's end. */
final class EveryTickJudge {
    private static final Anchor BEGINNING = new Anchor.OfBegin();

    private final Course course;
    private final Timeline timeline;
    private final Trace trace;
    private final Expectation expectation;
    private final Condition condition;
    private final boolean always;
    private final Signal signal;

    EveryTickJudge(Course course, Expectation expectation, Condition condition, boolean always) {
        this.course = course;
        this.timeline = course.timeline();
        this.trace = course.trace();
        this.expectation = expectation;
        this.condition = condition;
        this.always = always;
        this.signal = new Signal(timeline, condition);
    }

    Finding judge() {
        Findings to = new Findings(expectation.name(), expectation.place())
                .expected((always ? "always " : "never ") + condition.show() + ", from " + BEGINNING.show() + " on");
        if (!(course.moment(BEGINNING) instanceof Moment.Known from)) {
            String why = course.moment(BEGINNING) instanceof Moment.Missing missing ? missing.why() : "";
            return to.butWas("not judged: " + why).where(-1).of(Verdict.INCONCLUSIVE);
        }
        Ending ending = course.ending();
        int wrong = always ? Truth.FALSE : Truth.TRUE;
        int unknown = -1;
        int lastUnknown = -1;
        int last = timeline.lastTick();
        for (int tick = from.tick(); tick <= last; tick++) {
            int row = signal.rowFor(tick);
            boolean isRow = trace.tick(row) == tick;
            long latest = isRow ? trace.micros(row) : timeline.latest(tick);
            if ((isRow ? latest : timeline.earliest(tick)) > ending.notBehindMicros()) {
                break;
            }
            int truth = signal.at(tick);
            boolean within = latest <= ending.notBeforeMicros();
            if (within && (truth == wrong || (isRow && isWrongSomewhere(row, from.tick(), wrong)))) {
                return violated(to, from, tick);
            }
            if ((truth & wrong) != 0) {
                unknown = unknown < 0 ? tick : unknown;
                lastUnknown = tick;
            }
        }
        if (unknown >= 0) {
            return to.butWas("not known: " + Holes.between(timeline, unknown, lastUnknown))
                    .where(unknown)
                    .of(Verdict.INCONCLUSIVE);
        }
        if (!ending.isSeen(timeline)) {
            return to.butWas("not judged to the script's end: what counts of the trace ends at "
                            + Words.at(timeline.seenThroughMicros() - from.micros()))
                    .where(last)
                    .of(Verdict.INCONCLUSIVE);
        }
        closest(from, ending).ifPresent(text -> to.fact("closest", text));
        return to.of(Verdict.PASS);
    }

    private boolean isWrongSomewhere(int row, int firstTick, int wrong) {
        return trace.periodTicks() > 1
                && trace.tick(row) - trace.periodTicks() + 1 >= firstTick
                && (signal.somewhere(row) & wrong) != 0;
    }

    private Finding violated(Findings to, Moment.Known from, int tick) {
        long micros = timeline.latest(tick);
        return to.butWas(reading(tick) + " at " + Words.at(micros - from.micros()) + beyond(tick))
                .where(tick)
                .of(Verdict.FAIL);
    }

    private String reading(int tick) {
        return Readings.of(trace, condition, tick);
    }

    /** How far beyond its limit the worst reading of the row was, for a condition of one term. */
    private String beyond(int tick) {
        int row = trace.rowAtOrAfter(tick);
        Term term = condition.terms().get(0);
        if (condition.terms().size() > 1
                || !(term instanceof Compares compares)
                || row == trace.rows()
                || !trace.has(row, compares.channel().index())) {
            return "";
        }
        Optional<Long> slack = slack(row, compares);
        if (slack.isEmpty()) {
            return "";
        }
        String distance = Readings.distance(compares.channel(), -slack.get());
        if (distance.isEmpty()) {
            return "";
        }
        String worst = trace.periodTicks() == 1
                ? ""
                : compares.channel().show(worst(row, compares)) + " within " + trace.periodTicks() + " ticks, ";
        return " (" + worst + (slack.get() == 0 ? "at the limit)" : distance + " beyond the limit)");
    }

    /** Steps from the worst reading of a row to the limit; negative beyond it; empty where a distance means nothing. */
    private Optional<Long> slack(int row, Compares compares) {
        if (compares.relation() == Relation.IS
                || compares.relation() == Relation.IS_NOT
                || !compares.channel().valueNames().isEmpty()) {
            return Optional.empty();
        }
        long distance = (long) worst(row, compares) - compares.raw();
        return Optional.of(isLowerLimit(compares) ? distance : -distance);
    }

    private boolean isLowerLimit(Compares compares) {
        boolean up = compares.relation() == Relation.AT_LEAST || compares.relation() == Relation.ABOVE;
        return up == always;
    }

    private int worst(int row, Compares compares) {
        return isLowerLimit(compares) ? Signal.least(trace, row, compares) : Signal.greatest(trace, row, compares);
    }

    private Optional<String> closest(Moment.Known from, Ending ending) {
        if (condition.terms().size() > 1 || !(condition.terms().get(0) instanceof Compares compares)) {
            return Optional.empty();
        }
        int best = -1;
        long least = Long.MAX_VALUE;
        for (int row = trace.rowAtOrAfter(from.tick());
                row < trace.rows()
                        && trace.tick(row) <= timeline.lastTick()
                        && trace.micros(row) <= ending.notBehindMicros();
                row++) {
            Optional<Long> slack = slack(row, compares);
            if (slack.isPresent() && slack.get() < least) {
                least = slack.get();
                best = row;
            }
        }
        if (best < 0 || least < 0) {
            return Optional.empty();
        }
        return Optional.of(Readings.name(compares) + " " + compares.channel().show(worst(best, compares)) + " at "
                + Words.at(trace.micros(best) - from.micros()) + " ("
                + Readings.distance(compares.channel(), least) + " to spare)");
    }
}
