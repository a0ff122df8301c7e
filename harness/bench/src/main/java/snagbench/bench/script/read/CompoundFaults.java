package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.CompoundFault;
import snagbench.bench.script.Condition;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/** Reads faults as they look in all their sensors, which a rig's file names once for all scripts. */
final class CompoundFaults {
    private static final String EXAMPLE = "{ channels: { reach.position: freeze } }";

    private final Findings findings;
    private final Values values;
    private final Conditions conditions;
    private final Doings doings;

    CompoundFaults(Names names, Findings findings, Times times, Conditions conditions) {
        this.findings = findings;
        this.values = new Values(findings);
        this.conditions = conditions;
        this.doings = new Doings(names, findings, times, List.of());
    }

    List<CompoundFault> read(YamlNode node) {
        List<CompoundFault> found = new ArrayList<>();
        Optional<YamlMapping> mapping =
                values.mapping(node, "compound faults by their names", "{ reach-jam: " + EXAMPLE + " }");
        for (YamlMapping.Entry entry : mapping.map(YamlMapping::entries).orElse(List.of())) {
            if (Injections.isReadable(entry)) {
                compound(entry).ifPresent(found::add);
            }
        }
        return found;
    }

    private Optional<CompoundFault> compound(YamlMapping.Entry entry) {
        Optional<YamlMapping> mapping = values.mapping(entry.value(), "a compound fault", EXAMPLE);
        if (mapping.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = Fields.of(
                mapping.get(), "a compound fault", List.of("channels", "disturb", "while"), Set.of(), findings);
        Doings.Done done = doings.read(fields);
        Optional<Condition> whileHolds = fields.optional("while").flatMap(node -> conditions.read(node, Use.WHILE));
        return done.forcings().isEmpty()
                ? Optional.empty()
                : Optional.of(new CompoundFault(findings.place(entry.at()), entry.key(), done.forcings(), whileHolds));
    }
}
