package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.wire.ChannelKind;

/** Reads how a fail-safe's trouble is seen: words, and conditions of the script language on what the control code is told. */
final class RegisterSymptoms {
    private static final String HELD = "held";
    private static final String LASTED = "step-lasted";
    private static final List<String> KEYS = List.of("words", "when", HELD, LASTED, "beside", "constants");
    private static final String EXAMPLE = "{ words: the arm stands, when: [{ step: REACHING }], held: 100 ms }";

    private final Names names;
    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Conditions conditions;

    RegisterSymptoms(Names names, Findings findings, Times times) {
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
        this.times = times;
        this.conditions = new Conditions(names, findings, times, new Anchors(findings));
    }

    Optional<FailSafeRegister.Symptoms> read(YamlNode node) {
        Optional<YamlMapping> mapping = values.mapping(node, "how it is seen", EXAMPLE);
        if (mapping.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = Fields.of(mapping.get(), "\"symptoms\"", KEYS, Set.of(), findings);
        String words = fields.required("words", "what is seen")
                .flatMap(text -> values.words(text, "what is seen"))
                .orElse("");
        long held = fields.optional(HELD).map(this::time).orElse(0L);
        long lasted = fields.optional(LASTED).map(this::time).orElse(0L);
        List<FailSafeRegister.Symptom> when = new ArrayList<>();
        for (YamlNode item : fields.optional("when")
                .flatMap(list -> values.list(list, "a list of conditions", "- { step: REACHING }"))
                .orElse(List.of())) {
            values.mapping(item, "a condition", "{ step: REACHING }")
                    .flatMap(one -> symptom(one, held, lasted))
                    .ifPresent(when::add);
        }
        List<ChannelDescription> constants = new ArrayList<>();
        for (YamlNode item : fields.optional("constants")
                .flatMap(list -> values.listOrOne(list, "a list of constants", "- rack.zone"))
                .orElse(List.of())) {
            values.line(item, "a constant")
                    .flatMap(name -> names.channel(name, Set.of(ChannelKind.CONSTANT), "a constant"))
                    .ifPresent(constants::add);
        }
        String beside = fields.optional("beside")
                .flatMap(text -> values.words(text, "what no channel shows"))
                .orElse("");
        return Optional.of(new FailSafeRegister.Symptoms(words, when, beside, constants));
    }

    /** A condition, with times of its own where they are not the usual ones. */
    private Optional<FailSafeRegister.Symptom> symptom(YamlMapping mapping, long usualHeld, long usualLasted) {
        long held = usualHeld;
        long lasted = usualLasted;
        List<YamlMapping.Entry> terms = new ArrayList<>();
        for (YamlMapping.Entry entry : mapping.entries()) {
            if (entry.key().equals(HELD)) {
                held = time(entry.value());
            } else if (entry.key().equals(LASTED)) {
                lasted = time(entry.value());
            } else {
                terms.add(entry);
            }
        }
        long heldMicros = held;
        long lastedMicros = lasted;
        return conditions
                .read(new YamlMapping(mapping.at(), terms), Use.SYMPTOM)
                .map(condition -> new FailSafeRegister.Symptom(condition, heldMicros, lastedMicros));
    }

    private long time(YamlNode node) {
        return times.harnessMicros(node, "how long it must have been so", false);
    }
}
