package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Source;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.YamlList;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.bench.script.yaml.YamlScalar;
import snagbench.bench.script.yaml.YamlUnreadable;

/** Reads conditions. An empty answer has been reported. */
final class Conditions {
    private static final String EXAMPLE = "{ step: NAME, channel: at least 180 mm }";

    private final Names names;
    private final Findings findings;
    private final Values values;
    private final Comparisons comparisons;
    private final List<Mention> mentions = new ArrayList<>();

    Conditions(Names names, Findings findings, Times times, Anchors anchors) {
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
        this.comparisons = new Comparisons(findings, times, anchors);
    }

    /** Channels that were named so far without saying which reading is meant. */
    List<Mention> mentions() {
        return mentions;
    }

    /** Notes that a channel was named, by which reading. */
    Source note(Position at, Names.Reading reading, Use use, int injection) {
        if (reading.source().isEmpty() && !names.isDerived(reading.channel())) {
            mentions.add(new Mention(at, reading.channel(), use, injection));
        }
        return reading.source().orElse(use == Use.SYMPTOM ? Source.TOLD : Source.REAL);
    }

    /** A condition that belongs to no injection. */
    Optional<Condition> read(YamlNode node, Use use) {
        return read(node, use, -1);
    }

    /** A condition of an injection. */
    Optional<Condition> read(YamlNode node, Use use, int injection) {
        Optional<YamlMapping> mapping = values.mapping(node, "a condition", EXAMPLE);
        if (mapping.isEmpty()) {
            return Optional.empty();
        }
        if (mapping.get().entries().isEmpty()) {
            findings.error(node.at(), "an empty condition", "write at least one: { channel: at least 180 mm }");
            return Optional.empty();
        }
        List<Condition.Term> terms = new ArrayList<>();
        for (YamlMapping.Entry entry : mapping.get().entries()) {
            if (!(entry.value() instanceof YamlUnreadable)) {
                terms.addAll(terms(entry, use, injection));
            }
        }
        return terms.isEmpty() ? Optional.empty() : Optional.of(new Condition(findings.place(node.at()), terms));
    }

    private List<Condition.Term> terms(YamlMapping.Entry entry, Use use, int injection) {
        if (entry.key().equals("failsafe")) {
            return answers(entry, use).stream().toList();
        }
        if (entry.key().equals("any-of")) {
            return anyOf(entry, use).stream().toList();
        }
        Optional<Names.Reading> reading = names.reading(new Part(entry.at(), entry.key()));
        if (reading.isEmpty() || isOffTheRig(entry, reading.get().channel(), use)) {
            return List.of();
        }
        boolean agreement = use == Use.UNTIL && isAgreement(entry);
        Source source = agreement ? Source.REAL : note(entry.at(), reading.get(), use, injection);
        if (!(entry.value() instanceof YamlList list)) {
            return comparisons.read(entry, reading.get().channel(), source, use);
        }
        List<Condition.Term> terms = new ArrayList<>();
        for (YamlNode item : values.list(list, "a list of comparisons", "[above 5 mm, below 9 mm]")
                .orElse(List.of())) {
            YamlMapping.Entry one = new YamlMapping.Entry(entry.at(), entry.key(), item);
            terms.addAll(comparisons.read(one, reading.get().channel(), source, use));
        }
        return terms;
    }

    /** "agrees" looks at both readings. */
    private static boolean isAgreement(YamlMapping.Entry entry) {
        return entry.value() instanceof YamlScalar scalar
                && scalar.text().strip().startsWith("agrees");
    }

    /** Reports a derived channel where the rig itself must look. */
    private boolean isOffTheRig(YamlMapping.Entry entry, ChannelDescription channel, Use use) {
        boolean wrong = names.isDerived(channel) && (!use.isOfTrace() || use == Use.DERIVED);
        if (wrong) {
            findings.error(
                    entry.at(),
                    use == Use.DERIVED
                            ? channel.name() + " is derived itself, and nothing is derived from it"
                            : channel.name() + " is worked out from the trace, so that \"" + use.key()
                                    + "\" on the rig cannot look at it",
                    use == Use.DERIVED
                            ? "take a channel of the rig"
                            : "on the rig write \"channel: moves more than 2 mm in 10 ticks\" (or \"less than\"), or wait"
                                    + " for an expectation with \"after\"");
        }
        return wrong;
    }

    private Optional<Condition.Term> anyOf(YamlMapping.Entry entry, Use use) {
        if (!use.isOfTrace()) {
            findings.error(
                    entry.at(),
                    "\"any-of\" cannot stand in \"" + use.key() + "\": on the rig all terms must hold together",
                    "write an injection of its own for each");
            return Optional.empty();
        }
        List<Condition> alternatives = new ArrayList<>();
        for (YamlNode item : values.list(entry.value(), "a list of conditions", "- " + EXAMPLE)
                .orElse(List.of())) {
            read(item, use).ifPresent(alternatives::add);
        }
        return alternatives.isEmpty()
                ? Optional.empty()
                : Optional.of(new Condition.AnyOf(findings.place(entry.at()), alternatives));
    }

    private Optional<Condition.Term> answers(YamlMapping.Entry entry, Use use) {
        Position at = entry.at();
        if (!use.takesAnswers()) {
            findings.error(at, "\"failsafe\" cannot stand in \"" + use.key() + "\"", use.inPlaceOfAnswers());
            return Optional.empty();
        }
        return values.line(entry.value(), "a fail-safe's name")
                .flatMap(names::failSafe)
                .map(failSafe -> new Condition.Answers(findings.place(at), failSafe));
    }
}
