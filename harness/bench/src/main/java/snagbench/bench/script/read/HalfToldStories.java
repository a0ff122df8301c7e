package snagbench.bench.script.read;

import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Source;
import snagbench.wire.ChannelKind;

/**
 * Warns of an override that tells half of a story: a position that stands without the current of a motor that does, where the
 * fail-safe that is to answer looks for both. What it looks for, the register beside the rig's file says.
 */
final class HalfToldStories {
    private static final String CURRENT = "A";

    private final Symptoms.Register symptoms;
    private final Findings findings;

    private HalfToldStories(Symptoms.Register symptoms, Findings findings) {
        this.symptoms = symptoms;
        this.findings = findings;
    }

    static void check(FaultScript script, Symptoms.Register symptoms, Findings findings) {
        HalfToldStories stories = new HalfToldStories(symptoms, findings);
        for (Expectation expectation : script.expectations()) {
            if (expectation instanceof Expectation.AnsweredBy answered
                    && answered.after() instanceof Anchor.OfInjection anchor
                    && anchor.index() < script.injections().size()) {
                stories.compare(answered, script.injections().get(anchor.index()));
            }
        }
    }

    private void compare(Expectation.AnsweredBy answered, Injection injection) {
        boolean physical = injection.forcings().stream()
                .anyMatch(forcing -> forcing.channel().kind() != ChannelKind.SENSOR);
        Optional<Injection.Forcing> standing = injection.forcings().stream()
                .filter(forcing -> forcing.fault() instanceof Fault.Freeze || forcing.fault() instanceof Fault.StuckAt)
                .findFirst();
        if (physical || standing.isEmpty()) {
            return;
        }
        List<Condition.Term> struck = injection.trigger().when().terms();
        List<Symptoms.Alternative> fitting = symptoms.of(answered.failSafe().name()).stream()
                .filter(one -> one.fits(struck))
                .toList();
        List<Condition.Compares> missing = fitting.stream()
                .flatMap(one -> missing(one, standing.get().channel(), injection).stream())
                .toList();
        if (!fitting.isEmpty() && missing.size() == fitting.size()) {
            Condition.Compares first = missing.get(0);
            findings.warning(
                    standing.get().place(),
                    standing.get().channel().name() + " is overridden and "
                            + first.channel().name() + " is not, where "
                            + answered.failSafe().name() + " looks for " + first.show(),
                    "tell the whole story: \"" + first.channel().name() + ": stuck-at "
                            + first.channel().show(first.raw()) + "\" or more");
        }
    }

    /** A current that the alternative looks for beside the reading that stands, and that the injection leaves as it is. */
    private static Optional<Condition.Compares> missing(
            Symptoms.Alternative alternative, ChannelDescription standing, Injection injection) {
        boolean about = alternative.words().stream().anyMatch(word -> word.contains(standing.name()));
        Intervals known = Intervals.of(injection.trigger().when().terms());
        return alternative.terms().stream()
                .filter(term -> about && term instanceof Condition.Compares)
                .map(Condition.Compares.class::cast)
                .filter(one -> one.channel().unit().equals(CURRENT))
                .filter(one ->
                        one.relation() == Condition.Relation.AT_LEAST || one.relation() == Condition.Relation.ABOVE)
                .filter(one -> injection.forcings().stream()
                        .noneMatch(forcing -> forcing.channel().equals(one.channel())))
                .filter(one -> known.least(new Intervals.Reading(one.channel(), Source.REAL)) < one.raw())
                .findFirst();
    }
}
