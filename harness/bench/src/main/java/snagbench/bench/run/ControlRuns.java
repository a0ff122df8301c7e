package snagbench.bench.run;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.ProgramLayout;
import snagbench.wire.Wire;

/**
 * Which control runs a script gets that has passed, and what each is made of. A fail-safe is to answer unless the script says
 * that it must not fire and wants no report of it anywhere; a script that names none is taken to be about those whose answer it wants.
 */
final class ControlRuns {
    private final RunPlan plan;
    private final RunTerms terms;
    private final boolean real;

    ControlRuns(RunPlan plan, RunTerms terms, boolean real) {
        this.plan = plan;
        this.terms = terms;
        this.real = real;
    }

    /**
     * The control runs of a script.
     *
     * @param index of its fault run
     * @param script which
     * @param lastedMicros how long the fault run was behind its beginning, on the rig's clock
     * @return in the order in which they are to be made
     */
    List<ControlRun> of(int index, FaultScript script, long lastedMicros) {
        List<ControlRun> runs = new ArrayList<>();
        List<FailSafeDescription> named = named(script);
        List<FailSafeDescription> toAnswer =
                named.stream().filter(one -> mustAnswer(script, one)).toList();
        if (plan.checks().noFault()) {
            if (named.isEmpty()) {
                runs.add(ControlRun.notPossible(
                        new Control(Role.NO_FAULT, index, ""), script, "the script names no fail-safe"));
            } else if (!toAnswer.isEmpty()) {
                runs.add(withoutFault(index, script, toAnswer, lastedMicros));
            }
        }
        if (plan.checks().inhibited()) {
            named.forEach(one -> runs.add(
                    toAnswer.contains(one) ? inhibited(index, script, one) : twin(index, script, one, lastedMicros)));
        }
        return runs;
    }

    private static List<FailSafeDescription> named(FaultScript script) {
        if (!script.failSafes().isEmpty()) {
            return script.failSafes();
        }
        return script.expectations().stream()
                .filter(Expectation.AnsweredBy.class::isInstance)
                .map(one -> ((Expectation.AnsweredBy) one).failSafe())
                .distinct()
                .toList();
    }

    static boolean mustAnswer(FaultScript script, FailSafeDescription failSafe) {
        boolean mayNot = false;
        for (Expectation one : script.expectations()) {
            if (one instanceof Expectation.AnsweredBy answered
                    && answered.failSafe().equals(failSafe)) {
                return true;
            }
            mayNot |= one instanceof Expectation.MustNotFire quiet
                    && quiet.failSafe().equals(failSafe);
        }
        return !mayNot;
    }

    private static ControlRun withoutFault(
            int index, FaultScript script, List<FailSafeDescription> quiet, long lastedMicros) {
        List<Expectation> expectations = new ArrayList<>();
        for (FailSafeDescription one : quiet) {
            expectations.add(
                    new Expectation.MustNotFire(script.place(), one.name() + " stays quiet without the fault", one));
        }
        FaultScript without = script.with(
                List.of(),
                expectations,
                Optional.of(new FaultScript.End(script.place(), lastedMicros, new Anchor.OfBegin())));
        return new ControlRun(new Control(Role.NO_FAULT, index, ""), without, 0, Optional.empty());
    }

    private ControlRun inhibited(int index, FaultScript script, FailSafeDescription failSafe) {
        Control control = new Control(Role.INHIBITED, index, failSafe.name() + " inhibited");
        Optional<String> objection = objection(script, failSafe);
        if (objection.isPresent()) {
            return ControlRun.notPossible(control, script, objection.get());
        }
        return new ControlRun(control, script.inhibiting(failSafe), 0, Optional.empty());
    }

    /** Why a script cannot be run with a fail-safe left out, on this rig and on these terms. */
    Optional<String> objection(FaultScript script, FailSafeDescription failSafe) {
        if (failSafe.inhibition().isEmpty()) {
            return Optional.of("the rig cannot leave out " + failSafe.name());
        }
        if (script.inhibited().contains(failSafe)) {
            return Optional.of("the script leaves out " + failSafe.name() + " itself");
        }
        Optional<String> room = noRoomFor(script.inhibiting(failSafe));
        if (room.isPresent()) {
            return room;
        }
        return real ? onARealRig(script) : Optional.empty();
    }

    /** Why a script with a change of the control code in it cannot be loaded: each change takes a slot of its own. */
    Optional<String> noRoomFor(FaultScript changed) {
        int most = Math.min(plan.description().limits().slots(), Wire.MASK_BITS);
        return ProgramLayout.of(changed).entries() > most
                ? Optional.of("the rig's probe has no slot left for it")
                : Optional.empty();
    }

    private Optional<String> onARealRig(FaultScript script) {
        return InhibitionOnReal.objection(script, plan.rig(), terms.inhibitedOnReal());
    }

    private ControlRun twin(int index, FaultScript script, FailSafeDescription failSafe, long lastedMicros) {
        Control control = new Control(Role.TWIN, index, failSafe.name() + " must answer");
        if (script.twin().isEmpty()) {
            return new ControlRun(
                    control,
                    script,
                    0,
                    Optional.of(Judgements.inconclusive("the script says that " + failSafe.name()
                            + " must not fire, and names no twin just over the limit in which it would:"
                            + " add one under the injection, such as \"twin: { lasts: 120 ms }\"")));
        }
        Expectation answer = new Expectation.AnsweredBy(
                script.place(),
                failSafe.name() + " answers in the twin",
                failSafe,
                new Expectation.Window(0, lastedMicros),
                altered(script),
                false);
        List<Expectation> expectations = hangsOnAnExpectation(script.twin())
                ? Stream.concat(
                                script.expectations().stream()
                                        .map(one -> one instanceof Expectation.Timed ? one : answer),
                                Stream.of(answer))
                        .toList()
                : List.of(answer);
        int last = expectations.size() - 1;
        FaultScript twin = script.with(
                script.twin(),
                expectations,
                Optional.of(new FaultScript.End(script.place(), 0, new Anchor.OfExpectation(last, answer.name()))));
        Optional<String> objection = real && InhibitionOnReal.isWantedBy(twin) ? onARealRig(twin) : Optional.empty();
        return objection.isPresent()
                ? ControlRun.notPossible(control, twin, "it leaves a fail-safe out: " + objection.get())
                : new ControlRun(control, twin, last, Optional.empty());
    }

    /** The first injection that is otherwise in the twin. */
    private static Anchor altered(FaultScript script) {
        int index = 0;
        while (index < script.injections().size() - 1
                && script.injections().get(index).equals(script.twin().get(index))) {
            index++;
        }
        return new Anchor.OfInjection(index, script.injections().get(index).name());
    }

    private static boolean hangsOnAnExpectation(List<Injection> injections) {
        return injections.stream().anyMatch(one -> one.trigger().after() instanceof Anchor.OfExpectation);
    }
}
