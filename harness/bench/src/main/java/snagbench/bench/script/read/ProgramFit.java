package snagbench.bench.script.read;

import java.util.Locale;
import java.util.Optional;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Place;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.Stage;
import snagbench.wire.EntryKind;
import snagbench.wire.Wire;

/** Checks that a script fits the rig's probe as a program: one entry for each stage and forcing, one term for each comparison. */
final class ProgramFit {
    private final ProbeCapacity limits;
    private final Findings findings;

    private ProgramFit(ProbeCapacity limits, Findings findings) {
        this.limits = limits;
        this.findings = findings;
    }

    static void check(FaultScript script, ProbeCapacity limits, Findings findings) {
        ProgramFit fit = new ProgramFit(limits, findings);
        fit.entries(script);
        fit.terms(script);
        fit.kinds(script);
    }

    private void entries(FaultScript script) {
        int most = Math.min(limits.slots(), Wire.MASK_BITS);
        int entries = script.begin().size();
        if (entries > most) {
            tooMany(script.begin().get(most).place(), script, most);
            return;
        }
        for (Injection injection : script.injections()) {
            for (Injection.Forcing forcing : injection.forcings()) {
                entries++;
                if (entries == most + 1) {
                    tooMany(forcing.place(), script, most);
                }
            }
        }
    }

    private void tooMany(Place place, FaultScript script, int most) {
        int wanted = script.firstEntryOfInjection(script.injections().size());
        findings.error(
                place,
                "the rig's probe has " + most + " slots, and this script wants " + wanted,
                "each stage of the beginning and each channel of an injection takes one: leave some out, from here on");
    }

    private void terms(FaultScript script) {
        int terms = 0;
        for (Stage stage : script.begin()) {
            terms += stage instanceof Stage.WaitFor wait
                    ? wait.condition().terms().size()
                    : 0;
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

    private static int count(Optional<Condition> condition) {
        return condition.map(found -> found.terms().size()).orElse(0);
    }

    private void kinds(FaultScript script) {
        for (Stage stage : script.begin()) {
            boolean waits = stage instanceof Stage.WaitFor;
            kind(waits ? EntryKind.WAIT : EntryKind.STUCK_AT, waits ? "wait-for" : "send", stage.place());
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

    private static EntryKind kindOf(Fault fault) {
        if (fault instanceof Fault.StuckAt) {
            return EntryKind.STUCK_AT;
        }
        if (fault instanceof Fault.Freeze) {
            return EntryKind.FREEZE;
        }
        return fault instanceof Fault.Offset ? EntryKind.OFFSET : EntryKind.SPIKE;
    }

    private static String nameOf(Fault fault) {
        return kindOf(fault).name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
