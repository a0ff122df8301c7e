package snagbench.bench.script.read;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.TestPlan;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/** Reads what a plan wants to be checked of its own scripts. */
final class Switches {
    private final Findings findings;
    private final Values values;

    Switches(Findings findings) {
        this.findings = findings;
        this.values = new Values(findings);
    }

    TestPlan.Controls controls(YamlNode node) {
        Optional<Fields> fields = fields(node, "control-runs", "no-fault", "inhibited");
        return new TestPlan.Controls(isOn(fields, "no-fault"), isOn(fields, "inhibited"));
    }

    TestPlan.AdequacyAsked adequacy(YamlNode node) {
        Optional<Fields> fields = fields(node, "adequacy", "failsafes", "constants");
        return new TestPlan.AdequacyAsked(isOn(fields, "failsafes"), isOn(fields, "constants"));
    }

    private Optional<Fields> fields(YamlNode node, String key, String first, String second) {
        String example = "{ " + first + ": true, " + second + ": true }";
        Optional<YamlMapping> mapping = values.mapping(node, "what is checked of the scripts", key + ": " + example);
        if (mapping.isPresent() && mapping.get().entries().isEmpty()) {
            findings.error(node.at(), "\"" + key + "\" asks for nothing", "write it as: " + key + ": " + example);
        }
        return mapping.map(found -> Fields.of(found, "\"" + key + "\"", List.of(first, second), Set.of(), findings));
    }

    private boolean isOn(Optional<Fields> fields, String key) {
        return fields.flatMap(found -> found.optional(key)).map(values::truth).orElse(false);
    }
}
