package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Source;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.bench.script.yaml.YamlUnreadable;

/** Reads conditions. An empty answer has been reported. */
final class Conditions {
    private final Names names;
    private final Findings findings;
    private final Values values;
    private final Comparisons comparisons;
    private final List<Mention> mentions = new ArrayList<>();

    Conditions(Names names, Findings findings) {
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
        this.comparisons = new Comparisons(findings);
    }

    /** Channels that were named so far without saying which reading is meant. */
    List<Mention> mentions() {
        return mentions;
    }

    /** A condition that belongs to no injection. */
    Optional<Condition> read(YamlNode node, Use use) {
        return read(node, use, -1);
    }

    /** A condition of an injection. */
    Optional<Condition> read(YamlNode node, Use use, int injection) {
        Optional<YamlMapping> mapping = values.mapping(node, "a condition", "{ step: NAME, channel: at least 180 mm }");
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
                term(entry, use, injection).ifPresent(terms::add);
            }
        }
        return terms.isEmpty() ? Optional.empty() : Optional.of(new Condition(findings.place(node.at()), terms));
    }

    private Optional<Condition.Term> term(YamlMapping.Entry entry, Use use, int injection) {
        if (entry.key().equals("failsafe")) {
            return answers(entry, use);
        }
        Optional<Names.Reading> reading = names.reading(new Part(entry.at(), entry.key()));
        if (reading.isEmpty()) {
            return Optional.empty();
        }
        if (reading.get().source().isEmpty()) {
            mentions.add(new Mention(entry.at(), reading.get().channel(), use, injection));
        }
        return comparisons.read(
                entry, reading.get().channel(), reading.get().source().orElse(Source.REAL));
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
