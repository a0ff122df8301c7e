package snagbench.bench.judge;

import java.util.Optional;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/**
 * The course of a script in a trace: when its beginning was over, its injections struck and its expectations came about.
 * Each is worked out once, when it is asked for. Not threadsafe.
 */
final class Course {
    private final FaultScript script;
    private final Trace trace;
    private final long settlingMicros;
    private final Timeline timeline;
    private final @Nullable Outcome[] outcomes;
    private final boolean[] underWay;
    private @Nullable Ending ending;

    Course(FaultScript script, Trace trace, long settlingMicros) {
        this.script = script;
        this.trace = trace;
        this.settlingMicros = settlingMicros;
        this.timeline = new Timeline(trace);
        this.outcomes = new Outcome[script.expectations().size()];
        this.underWay = new boolean[outcomes.length];
    }

    FaultScript script() {
        return script;
    }

    Trace trace() {
        return trace;
    }

    Timeline timeline() {
        return timeline;
    }

    Ending ending() {
        Ending known = ending;
        if (known == null) {
            known = new Ending(this, settlingMicros);
            ending = known;
        }
        return known;
    }

    Moment moment(Anchor anchor) {
        if (anchor instanceof Anchor.OfInjection injection) {
            return strike(injection.index());
        }
        if (anchor instanceof Anchor.OfExpectation expectation) {
            return underWay[expectation.index()]
                            || !isMoment(script.expectations().get(expectation.index()))
                    ? new Moment.Missing(true, 0, "its anchor \"" + expectation.name() + "\" is no moment")
                    : outcome(expectation.index()).moment();
        }
        return beginning();
    }

    private static boolean isMoment(Expectation expectation) {
        return expectation instanceof Expectation.AnsweredBy || expectation instanceof Expectation.Becomes;
    }

    /** The end of the beginning: the last stage done, or arming where there are none. */
    Moment beginning() {
        if (script.begin().isEmpty()) {
            return new Moment.Known(0, 0, 0, 1);
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

    /**
     * The first tick with an injection's override. What the control code does in that very tick may already be its answer,
     * since it is told the override in it.
     */
    Moment strike(int injection) {
        int entry = script.firstEntryOfInjection(injection);
        Optional<Happening> on = first(EventKind.ENTRY_ON, entry);
        if (on.isPresent()) {
            Happening one = on.get();
            return new Moment.Known(one.tick(), one.micros(), one.number(), one.tick());
        }
        Injection its = script.injections().get(injection);
        OptionalInt row = firstActiveRow(entry);
        if (row.isPresent()) {
            int at = row.getAsInt();
            boolean isFirst = at > 0 && trace.tick(at - 1) == trace.tick(at) - 1;
            return isFirst
                    ? new Moment.Known(trace.tick(at), trace.micros(at), 0, trace.tick(at))
                    : new Moment.Missing(
                            false,
                            at == 0 ? 0 : trace.micros(at - 1) + 1,
                            "it is not known when " + nameOf(injection) + " struck");
        }
        boolean over = stageTimedOut().isPresent();
        boolean allSeen = timeline.hasAllEvents(0, timeline.lastTick());
        return new Moment.Missing(
                over,
                allSeen ? timeline.seenThroughMicros() + 1 : 0,
                nameOf(injection) + (allSeen ? " never struck" : " was not seen to strike") + " ("
                        + its.place().brief() + ")");
    }

    String nameOf(int injection) {
        return new Anchor.OfInjection(
                        injection, script.injections().get(injection).name())
                .show();
    }

    private OptionalInt firstActiveRow(int entry) {
        for (int row = 0; row < trace.rows() && trace.tick(row) <= timeline.lastTick(); row++) {
            if ((trace.active(row) >>> entry & 1) != 0) {
                return OptionalInt.of(row);
            }
        }
        return OptionalInt.empty();
    }

    Optional<Happening> first(EventKind kind, int a) {
        return timeline.events().stream().filter(one -> one.is(kind, a)).findFirst();
    }

    Outcome outcome(int index) {
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

    private Outcome judge(Expectation expectation) {
        if (expectation instanceof Expectation.AnsweredBy it) {
            return new AwaitedJudge(this, new AwaitedAnswer(this, it), it, it.within(), it.after()).judge();
        }
        if (expectation instanceof Expectation.Becomes it) {
            return new AwaitedJudge(this, new AwaitedState(this, it), it, it.within(), it.after()).judge();
        }
        if (expectation instanceof Expectation.Always it) {
            return lasting(new EveryTickJudge(this, it, it.condition(), true).judge());
        }
        if (expectation instanceof Expectation.Never it) {
            return lasting(new EveryTickJudge(this, it, it.condition(), false).judge());
        }
        return lasting(new MustNotFireJudge(this, (Expectation.MustNotFire) expectation).judge());
    }

    private static Outcome lasting(Finding finding) {
        return new Outcome(finding, new Moment.Missing(true, 0, "\"" + finding.name() + "\" is no moment"));
    }

    /** The injection from which an anchor counts in the end; empty where that is the beginning. */
    OptionalInt rootInjection(Anchor anchor) {
        Anchor at = anchor;
        for (int depth = 0; depth <= outcomes.length; depth++) {
            if (at instanceof Anchor.OfInjection injection) {
                return OptionalInt.of(injection.index());
            }
            if (!(at instanceof Anchor.OfExpectation other)) {
                return OptionalInt.empty();
            }
            Expectation expectation = script.expectations().get(other.index());
            if (expectation instanceof Expectation.AnsweredBy answeredBy) {
                at = answeredBy.after();
            } else if (expectation instanceof Expectation.Becomes becomes) {
                at = becomes.after();
            } else {
                return OptionalInt.empty();
            }
        }
        return OptionalInt.empty();
    }
}
