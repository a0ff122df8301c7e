package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stage;
import snagbench.wire.ChannelKind;

/** Warns of conditions on the rig that can never hold: by themselves, or after what must have happened before. */
final class NeverHolding {
    private final FaultScript script;
    private final Findings findings;

    private NeverHolding(FaultScript script, Findings findings) {
        this.script = script;
        this.findings = findings;
    }

    static void check(FaultScript script, Findings findings) {
        new NeverHolding(script, findings).check();
    }

    private void check() {
        for (Stage stage : script.begin()) {
            if (stage instanceof Stage.WaitFor wait) {
                bySelf(wait.condition(), "\"wait-for\"");
            }
        }
        for (Injection injection : script.injections()) {
            bySelf(injection.trigger().when(), "\"when\"");
            injection.whileHolds().ifPresent(condition -> bySelf(condition, "\"while\""));
            injection.until().ifPresent(condition -> bySelf(condition, "\"until\""));
            afterCounters(injection);
            afterLastingOverrides(injection);
            afterAnExpectation(injection);
        }
    }

    private void bySelf(Condition condition, String where) {
        // A comparison that no value fits by itself has been told of where it stands.
        List<Condition.Term> possible = condition.terms().stream()
                .filter(term -> Intervals.of(List.of(term)).impossible().isEmpty())
                .toList();
        Optional<ChannelDescription> channel = Intervals.of(possible).impossible();
        channel.ifPresent(one -> warn(
                condition,
                where + " can never hold: no value of " + one.name() + " fits all that it asks of it",
                "ask less of it"));
        for (Condition.Term term : condition.terms()) {
            if (term instanceof Condition.Answers answers && isLeftOut(answers.failSafe())) {
                warn(
                        condition,
                        where + " can never hold: " + answers.failSafe().name() + " is left out from arming on",
                        "take it out of \"inhibit\"");
            }
        }
    }

    private boolean isLeftOut(FailSafeDescription failSafe) {
        return script.inhibited().contains(failSafe);
    }

    /** A counter goes up only: what it had reached before, it does not fall below again. */
    private void afterCounters(Injection injection) {
        Intervals wanted = Intervals.of(injection.trigger().when().terms());
        for (Condition before : before(injection)) {
            Intervals had = Intervals.of(before.terms());
            for (Intervals.Reading reading : wanted.readings()) {
                if (reading.channel().kind() == ChannelKind.COUNTER && wanted.most(reading) < had.least(reading)) {
                    warn(
                            injection.trigger().when(),
                            "\"when\" can never hold: line " + before.place().line() + " waits until "
                                    + reading.channel().name() + " is at least " + had.least(reading)
                                    + ", and it never falls",
                            "ask for more, or hang it on what comes before");
                }
            }
        }
    }

    /** What must have held before an injection is looked at. */
    private List<Condition> before(Injection injection) {
        List<Condition> before = new ArrayList<>();
        for (Stage stage : script.begin()) {
            if (stage instanceof Stage.WaitFor wait) {
                before.add(wait.condition());
            }
        }
        leaders(injection).forEach(leader -> before.add(leader.trigger().when()));
        return before;
    }

    /** The injections that have struck before an injection is looked at. */
    private List<Injection> leaders(Injection injection) {
        List<Injection> leaders = new ArrayList<>();
        Anchor at = injection.trigger().after();
        while (leaders.size() < script.injections().size()) {
            if (at instanceof Anchor.OfInjection other
                    && other.index() < script.injections().size()) {
                Injection leader = script.injections().get(other.index());
                leaders.add(leader);
                at = leader.trigger().after();
            } else if (at instanceof Anchor.OfExpectation other
                    && other.index() < script.expectations().size()
                    && script.expectations().get(other.index()) instanceof Expectation.Timed timed) {
                at = timed.after();
            } else {
                break;
            }
        }
        return leaders;
    }

    /** Where the control code is told one value to the end, it is told no other. */
    private void afterLastingOverrides(Injection injection) {
        Condition when = injection.trigger().when();
        for (Injection leader : leaders(injection)) {
            if (leader.until().isPresent()
                    || leader.whileHolds().isPresent()
                    || leader.lastsMicros().isPresent()) {
                continue;
            }
            for (Injection.Forcing forcing : leader.forcings()) {
                boolean alone = leader.forcings().stream()
                                .filter(other -> other.channel().equals(forcing.channel()))
                                .count()
                        == 1;
                if (alone && forcing.gate().isEmpty()) {
                    afterLasting(when, leader, forcing);
                }
            }
        }
    }

    private void afterLasting(Condition when, Injection leader, Injection.Forcing forcing) {
        Intervals.Reading told = new Intervals.Reading(forcing.channel(), Source.TOLD);
        boolean other = forcing.fault() instanceof Fault.StuckAt stuck
                && !Intervals.of(when.terms()).allows(told, stuck.raw());
        boolean still = forcing.fault() instanceof Fault.StuckAt || forcing.fault() instanceof Fault.Freeze;
        boolean moves = when.terms().stream().anyMatch(term -> asksToMove(term, forcing.channel()));
        if (other || (still && moves)) {
            warn(
                    when,
                    "\"when\" can never hold: \"" + leader.name() + "\", which comes before and has no end, keeps "
                            + forcing.channel().name() + ".told as it is",
                    "write \"" + forcing.channel().name() + ".real\", or give \"" + leader.name() + "\" an end");
        }
    }

    private static boolean asksToMove(Condition.Term term, ChannelDescription channel) {
        if (term instanceof Condition.Crosses crosses) {
            return crosses.source() == Source.TOLD && crosses.channel().equals(channel);
        }
        return term instanceof Condition.Moves moves
                && moves.more()
                && moves.source() == Source.TOLD
                && moves.channel().equals(channel);
    }

    private void afterAnExpectation(Injection injection) {
        if (injection.trigger().after() instanceof Anchor.OfExpectation other
                && script.expectations().get(other.index()) instanceof Expectation.AnsweredBy answered
                && isLeftOut(answered.failSafe())) {
            findings.warning(
                    injection.place(),
                    "this can never strike: it waits for \"" + answered.name() + "\", and "
                            + answered.failSafe().name() + " is left out from arming on",
                    "take it out of \"inhibit\"");
        }
    }

    private void warn(Condition at, String message, String cure) {
        findings.warning(at.place(), message, cure);
    }
}
