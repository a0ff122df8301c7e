package snagbench.bench.judge;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/**
 * The course of a script in a trace: when its beginning was over, its injections struck and its expectations came about.
 * Each is worked out once, when it is asked for. Where the controller restarts, what follows is a course of its own, on a
 * clock of its own. Not threadsafe.
 */
final class Course {
    private final FaultScript script;
    private final Trace trace;
    private final long settlingMicros;
    private final @Nullable Course before;
    private final int part;
    private final Chain chain;
    private final Timeline timeline;
    private final Signals signals;
    private final Strikes strikes;
    private final @Nullable Outcome[] outcomes;
    private final boolean[] underWay;
    private @Nullable Ending ending;
    private @Nullable Ending ownEnding;
    private @Nullable Course behind;

    Course(FaultScript script, Trace trace, long settlingMicros) {
        this(script, trace, settlingMicros, null);
    }

    private Course(FaultScript script, Trace trace, long settlingMicros, @Nullable Course before) {
        this.script = script;
        this.trace = trace;
        this.settlingMicros = settlingMicros;
        this.before = before;
        this.part = before == null ? 0 : before.part + 1;
        this.chain = new Chain(script);
        this.timeline = new Timeline(trace);
        this.signals = new Signals(this);
        this.strikes = new Strikes(this);
        this.outcomes = new Outcome[script.expectations().size()];
        this.underWay = new boolean[outcomes.length];
    }

    FaultScript script() {
        return script;
    }

    Trace trace() {
        return trace;
    }

    Chain chain() {
        return chain;
    }

    /** How many restarts lie before it. */
    int part() {
        return part;
    }

    /** The course from arming on. */
    Course first() {
        return before == null ? this : before.first();
    }

    /** The course behind the controller's restart, where any of it was seen. */
    Optional<Course> behind() {
        if (behind == null) {
            trace.afterRestart().ifPresent(rest -> behind = new Course(script, rest, settlingMicros, this));
        }
        return Optional.ofNullable(behind);
    }

    Timeline timeline() {
        return timeline;
    }

    Signals signals() {
        return signals;
    }

    Ending ending() {
        Ending known = ending;
        if (known == null) {
            known = Ending.of(this, settlingMicros);
            ending = known;
        }
        return known;
    }

    /** The end for what is to last to the end and has others hang on it. */
    Ending endingWithoutWhatHangsOnIt() {
        Ending known = ownEnding;
        if (known == null) {
            known = Ending.withoutWhatHangsOnIt(this, settlingMicros);
            ownEnding = known;
        }
        return known;
    }

    /** Tells whether this part ended with a restart that the script asks for. */
    boolean endsWithRestart() {
        return trace.restart().isPresent()
                && script.expectations().stream()
                        .anyMatch(one -> one instanceof Expectation.Restart restart
                                && chain.part(restart) == part
                                && moment(restart.after()) instanceof Moment.Known);
    }

    /** Tells whether the anchor of a restart that the script asks for in this part may have come unseen. */
    boolean mayEndWithRestart() {
        return script.expectations().stream()
                .anyMatch(one -> one instanceof Expectation.Restart restart
                        && chain.part(restart) == part
                        && moment(restart.after()) instanceof Moment.Missing missing
                        && !missing.settled());
    }

    /** The moment of an anchor, on this course's clock. */
    Moment moment(Anchor anchor) {
        int its = chain.part(anchor);
        if (its != part) {
            return new Moment.Missing(
                    true, 0, anchor.show() + " lies " + (its < part ? "before" : "behind") + " the restart");
        }
        if (anchor instanceof Anchor.OfInjection injection) {
            return strikes.moment(injection.index(), injection.time());
        }
        return anchor instanceof Anchor.OfExpectation expectation ? moment(expectation) : beginning();
    }

    private Moment moment(Anchor.OfExpectation anchor) {
        Expectation expectation = script.expectations().get(anchor.index());
        if (expectation instanceof Expectation.Restart) {
            return before == null
                    ? noMoment(anchor.name())
                    : before.outcome(anchor.index()).moment();
        }
        if (underWay[anchor.index()]) {
            return noMoment(anchor.name());
        }
        Outcome its = outcome(anchor.index());
        if (anchor.time() == 1 || its.finding().verdict() != Verdict.PASS) {
            return its.moment();
        }
        return awaited(expectation, anchor.time())
                .map(one -> nth(one, (Expectation.Timed) expectation, anchor))
                .orElse(noMoment(anchor.name()));
    }

    /** The n-th time, counted from the expectation's own anchor, whatever its window. */
    private Moment nth(Awaited awaited, Expectation.Timed expectation, Anchor.OfExpectation anchor) {
        return moment(expectation.after()) instanceof Moment.Known from
                ? awaited.moment(this, from, anchor.show())
                : Moment.notMet(anchor.name(), false);
    }

    private static Moment noMoment(String name) {
        return new Moment.Missing(true, 0, "\"" + name + "\" is no moment");
    }

    /** The end of the beginning: the last stage done, or arming where there are none. */
    Moment beginning() {
        if (script.begin().isEmpty()) {
            return Moment.ARMING;
        }
        int last = script.entryOfStage(script.begin().size() - 1);
        Optional<Happening> done = first(EventKind.STAGE_DONE, last);
        if (done.isPresent()) {
            Happening one = done.get();
            return new Moment.Known(one.tick(), one.micros(), one.number(), one.tick() + 1);
        }
        boolean timedOut = stageTimedOut().isPresent();
        return new Moment.Missing(
                timedOut, 0, "the beginning was not " + (timedOut ? "" : "seen to be ") + "completed");
    }

    Optional<Happening> stageTimedOut() {
        return timeline.events().stream()
                .filter(one -> one.kind() == EventKind.STAGE_TIMED_OUT)
                .findFirst();
    }

    /** The first tick with an injection's override. */
    Moment strike(int injection) {
        return strikes.moment(injection, 1);
    }

    String nameOf(int injection) {
        return new Anchor.OfInjection(
                        injection, script.injections().get(injection).name())
                .show();
    }

    Optional<Happening> first(EventKind kind, int a) {
        return timeline.events().stream().filter(one -> one.is(kind, a)).findFirst();
    }

    Outcome outcome(int index) {
        int its = chain.part(script.expectations().get(index));
        if (its < part && before != null) {
            return before.outcome(index);
        }
        if (its > part) {
            return behind().map(rest -> rest.outcome(index)).orElseGet(() -> notSeen(index));
        }
        Outcome known = outcomes[index];
        if (known != null) {
            return known;
        }
        underWay[index] = true;
        Outcome found = judge(script.expectations().get(index));
        underWay[index] = false;
        outcomes[index] = found;
        return found;
    }

    private Outcome notSeen(int index) {
        Expectation expectation = script.expectations().get(index);
        return lasting(new Findings(expectation.name(), expectation.place())
                .butWas("not judged: nothing was recorded behind a restart of the controller")
                .where(-1)
                .of(Verdict.INCONCLUSIVE));
    }

    private Outcome judge(Expectation expectation) {
        if (expectation instanceof Expectation.Stays it) {
            return new HoldingJudge(this, it).judge();
        }
        if (expectation instanceof Expectation.Settles it) {
            return new HoldingJudge(this, it).judge();
        }
        if (expectation instanceof Expectation.Timed it) {
            return new AwaitedJudge(this, awaited(it, time(it)).orElseThrow(), it).judge();
        }
        if (expectation instanceof Expectation.Order it) {
            return lasting(new OrderJudge(this, it).judge());
        }
        if (expectation instanceof Expectation.MustNotFire it) {
            return lasting(OverStretch.judge(this, it, it.during(), new Silence(this, it)));
        }
        return lasting(OverStretch.judge(this, expectation, Chain.stretchOf(expectation), over(expectation)));
    }

    private OverStretch.Judged over(Expectation expectation) {
        if (expectation instanceof Expectation.Always it) {
            return new EveryTick(this, it.condition(), EveryTick.Kind.ALWAYS);
        }
        if (expectation instanceof Expectation.Never it) {
            return new EveryTick(this, it.condition(), EveryTick.Kind.NEVER);
        }
        if (expectation instanceof Expectation.Peak it) {
            return new EveryTick(this, new Condition(it.place(), List.of(it.reading())), EveryTick.Kind.PEAK);
        }
        return new HowOften(this, (Expectation.Times) expectation);
    }

    private static int time(Expectation expectation) {
        if (expectation instanceof Expectation.AnsweredBy it) {
            return it.time();
        }
        return expectation instanceof Expectation.Becomes it ? it.time() : 1;
    }

    /** What an expectation waits for, for the n-th time; empty where it waits for nothing that can come again. */
    private Optional<Awaited> awaited(Expectation expectation, int time) {
        if (expectation instanceof Expectation.AnsweredBy it) {
            return Optional.of(new AwaitedAnswer(this, it, time));
        }
        if (expectation instanceof Expectation.Becomes it) {
            return Optional.of(new AwaitedState(this, it, time));
        }
        return expectation instanceof Expectation.Restart && time == 1
                ? Optional.of(new AwaitedRestart(this))
                : Optional.empty();
    }

    private static Outcome lasting(Finding finding) {
        return new Outcome(finding, noMoment(finding.name()));
    }
}
