package snagbench.bench.script.read;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Place;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.ProgramLayout;
import snagbench.bench.script.Stage;
import snagbench.bench.script.Trigger;
import snagbench.wire.EntryKind;
import snagbench.wire.LeftOut;
import snagbench.wire.Wire;

/**
 * Checks that a script fits the rig's probe as a program: entries, terms, points of curves, history of delays, and the kinds of
 * faults that it can do.
 */
final class ProgramFit {
    private final FaultScript script;
    private final ProgramLayout layout;
    private final ProbeCapacity limits;
    private final Findings findings;

    private ProgramFit(FaultScript script, ProbeCapacity limits, Findings findings) {
        this.script = script;
        this.layout = ProgramLayout.of(script);
        this.limits = limits;
        this.findings = findings;
    }

    /** Checks a script in which nothing else is wrong. */
    static void check(FaultScript script, ProbeCapacity limits, Findings findings) {
        ProgramFit fit = new ProgramFit(script, limits, findings);
        fit.entries();
        fit.terms();
        fit.points();
        fit.history();
        fit.kinds();
        fit.leftOut();
    }

    private void entries() {
        int most = Math.min(limits.slots(), Wire.MASK_BITS);
        int entries = 0;
        for (ProgramLayout.Part part : layout.parts()) {
            for (Place place : places(part)) {
                entries++;
                if (entries == most + 1) {
                    findings.error(
                            place,
                            "the rig's probe has " + most + " slots, and this script wants " + layout.entries(),
                            "each stage of the beginning, each fault of an injection, each expectation that an"
                                    + " injection waits for and each fail-safe left out takes one: leave some out, from"
                                    + " here on");
                }
            }
        }
    }

    /** Where each of its entries is written. */
    private List<Place> places(ProgramLayout.Part part) {
        if (part instanceof ProgramLayout.OfStage stage) {
            return List.of(script.begin().get(stage.index()).place());
        }
        if (part instanceof ProgramLayout.OfInjection injection) {
            return script.injections().get(injection.index()).forcings().stream()
                    .map(Injection.Forcing::place)
                    .toList();
        }
        return List.of(
                part instanceof ProgramLayout.Watch watch ? watch.expectation().place() : script.place());
    }

    private void terms() {
        int terms = 0;
        for (Stage stage : script.begin()) {
            terms += stage instanceof Stage.WaitFor wait
                    ? wait.condition().terms().size()
                    : 0;
        }
        for (ProgramLayout.Part part : layout.parts()) {
            terms += part instanceof ProgramLayout.Watch watch ? count(watch) : 0;
        }
        Place last = script.place();
        for (Injection injection : script.injections()) {
            terms += injection.trigger().when().terms().size()
                    + count(injection.whileHolds())
                    + count(injection.until());
            last = injection.place();
        }
        if (terms > limits.terms()) {
            findings.error(
                    last,
                    "the rig's probe has room for " + limits.terms() + " comparisons, and this script wants " + terms,
                    "each comparison in wait-for, when, while and until takes one: leave some out");
        }
    }

    private static int count(ProgramLayout.Watch watch) {
        return watch.expectation() instanceof Expectation.Becomes becomes
                ? becomes.condition().terms().size()
                : 1;
    }

    private static int count(Optional<Condition> condition) {
        return condition.map(found -> found.terms().size()).orElse(0);
    }

    private void points() {
        int points = 0;
        for (Injection injection : script.injections()) {
            for (Injection.Forcing forcing : injection.forcings()) {
                int its = forcing.fault() instanceof Fault.Replay replay
                        ? replay.points().size()
                        : 0;
                if (points <= limits.points() && points + its > limits.points()) {
                    findings.error(
                            forcing.place(),
                            "the rig's probe has room for " + limits.points()
                                    + " points of curves, and with this one the" + " script wants " + (points + its),
                            "leave points out: the value is held from one to the next");
                }
                points += its;
            }
        }
    }

    private void history() {
        int ticks = 0;
        for (Injection injection : script.injections()) {
            for (Injection.Forcing forcing : injection.forcings()) {
                int its = forcing.fault() instanceof Fault.Delay delay ? delay.ticks() : 0;
                if (ticks <= limits.history() && ticks + its > limits.history()) {
                    findings.error(
                            forcing.place(),
                            "the rig's probe keeps " + limits.history()
                                    + " ticks of the past for delays, and with this one" + " the script wants "
                                    + (ticks + its),
                            "take shorter delays, or fewer of them");
                }
                ticks += its;
            }
        }
    }

    private void kinds() {
        for (Stage stage : script.begin()) {
            boolean waits = stage instanceof Stage.WaitFor;
            kind(waits ? EntryKind.WAIT : EntryKind.STUCK_AT, waits ? "wait-for" : "send", stage.place());
        }
        for (ProgramLayout.Part part : layout.parts()) {
            if (part instanceof ProgramLayout.Watch watch) {
                kind(EntryKind.WAIT, "after", watch.expectation().place());
            } else if (part instanceof ProgramLayout.OfInhibition) {
                kind(EntryKind.STUCK_AT, "inhibit", script.place());
            }
        }
        for (Injection injection : script.injections()) {
            for (Injection.Forcing forcing : injection.forcings()) {
                kind(kindOf(forcing.fault()), nameOf(forcing.fault()), forcing.place());
            }
        }
    }

    private void kind(EntryKind kind, String name, Place place) {
        if ((limits.kinds() >>> kind.code() & 1) == 0) {
            findings.error(place, "the rig's probe cannot do \"" + name + "\"", "its greeting does not list it");
        }
    }

    /** What the rig's greeting says that its probe can not do, beside kinds of faults. */
    private void leftOut() {
        script.begin().forEach(stage -> {
            if (stage instanceof Stage.WaitFor wait) {
                windows(wait.condition());
            }
        });
        for (ProgramLayout.Part part : layout.parts()) {
            if (part instanceof ProgramLayout.Watch watch) {
                lacks(
                        LeftOut.TIMINGS,
                        watch.occasion() != 1,
                        "count",
                        watch.expectation().place());
                if (watch.expectation() instanceof Expectation.Becomes becomes) {
                    windows(becomes.condition());
                }
            }
        }
        for (Injection injection : script.injections()) {
            Trigger trigger = injection.trigger();
            lacks(LeftOut.TIMINGS, trigger.forMicros() != 0, "for", injection.place());
            lacks(LeftOut.TIMINGS, trigger.delayMicros() != 0, "delay", injection.place());
            lacks(LeftOut.TIMINGS, trigger.occasion() != 1, "count", injection.place());
            lacks(
                    LeftOut.TIMINGS,
                    trigger.times() != 1,
                    trigger.times() == 0 ? "every-time" : "at-most-times",
                    injection.place());
            windows(trigger.when());
            injection.whileHolds().ifPresent(this::windows);
            injection.until().ifPresent(this::windows);
            for (Injection.Forcing forcing : injection.forcings()) {
                boolean gated = forcing.gate().isPresent();
                boolean none = LeftOut.TIMINGS.isIn(limits.kinds());
                lacks(none ? LeftOut.TIMINGS : LeftOut.RHYTHM, gated, "intermittent", forcing.place());
            }
        }
    }

    private void windows(Condition condition) {
        for (Condition.Term term : condition.terms()) {
            if (term instanceof Condition.Moves moves) {
                lacks(LeftOut.WINDOWS, true, "moves", moves.place());
            }
        }
    }

    private void lacks(LeftOut what, boolean wanted, String word, Place place) {
        if (wanted && what.isIn(limits.kinds())) {
            findings.error(
                    place,
                    "the rig's probe cannot do \"" + word + "\"",
                    "its greeting says that this is left out of its build");
        }
    }

    private static EntryKind kindOf(Fault fault) {
        if (fault instanceof Fault.StuckAt) {
            return EntryKind.STUCK_AT;
        }
        if (fault instanceof Fault.Freeze) {
            return EntryKind.FREEZE;
        }
        if (fault instanceof Fault.Offset) {
            return EntryKind.OFFSET;
        }
        if (fault instanceof Fault.Spike) {
            return EntryKind.SPIKE;
        }
        if (fault instanceof Fault.Scale) {
            return EntryKind.SCALE;
        }
        if (fault instanceof Fault.Drift) {
            return EntryKind.DRIFT;
        }
        if (fault instanceof Fault.Noise) {
            return EntryKind.NOISE;
        }
        if (fault instanceof Fault.Dropout) {
            return EntryKind.DROPOUT;
        }
        return fault instanceof Fault.Delay ? EntryKind.DELAY : EntryKind.REPLAY;
    }

    private static String nameOf(Fault fault) {
        return kindOf(fault).name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
