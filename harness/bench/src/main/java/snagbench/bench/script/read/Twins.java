package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Problem;
import snagbench.bench.script.yaml.YamlList;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/**
 * Reads the twin of a script whose point is that a fail-safe must not fire: the same script, but for what its injections do
 * and for how long. Nothing else can differ, so that only that decides whether the fail-safe answers.
 */
final class Twins {
    /** The key of an injection under which its twin stands. */
    static final String KEY = "twin";

    private static final List<String> KEYS = keys();

    private final Findings findings;
    private final Values values;

    Twins(Findings findings) {
        this.findings = findings;
        this.values = new Values(findings);
    }

    private static List<String> keys() {
        List<String> keys = new ArrayList<>(Doings.KEYS);
        keys.addAll(Endings.KEYS);
        keys.add("while");
        return List.copyOf(keys);
    }

    /**
     * The twin of a script that is good by itself.
     *
     * @param root of the script's file
     * @param read reads a whole script
     * @return the twin as a script of its own; empty where there is none, or where something is wrong with it
     */
    Optional<FaultScript> of(YamlMapping root, BiFunction<YamlMapping, Findings, Optional<FaultScript>> read) {
        boolean hasTwin = injections(root).stream().anyMatch(Twins::hasTwin);
        if (!hasTwin) {
            return Optional.empty();
        }
        List<YamlMapping.Entry> entries = new ArrayList<>();
        for (YamlMapping.Entry entry : root.entries()) {
            entries.add(
                    entry.key().equals("inject")
                            ? new YamlMapping.Entry(entry.at(), entry.key(), merged((YamlList) entry.value()))
                            : entry);
        }
        Findings own = findings.anew();
        Optional<FaultScript> twin =
                findings.hasErrors() ? Optional.empty() : read.apply(new YamlMapping(root.at(), entries), own);
        // What is to be warned of in the script itself has been told; the twin need not be sensible, only possible.
        own.all().stream()
                .filter(problem -> problem.severity() == Problem.Severity.ERROR)
                .forEach(problem ->
                        findings.error(problem.place(), "in the twin: " + problem.message(), problem.cure()));
        return own.hasErrors() ? Optional.empty() : twin;
    }

    private static List<YamlNode> injections(YamlMapping root) {
        return root.entries().stream()
                .filter(entry -> entry.key().equals("inject"))
                .map(YamlMapping.Entry::value)
                .filter(YamlList.class::isInstance)
                .findFirst()
                .map(list -> ((YamlList) list).items())
                .orElse(List.of());
    }

    private static boolean hasTwin(YamlNode injection) {
        return injection instanceof YamlMapping mapping
                && mapping.entries().stream().anyMatch(entry -> entry.key().equals(KEY));
    }

    private YamlList merged(YamlList injections) {
        List<YamlNode> items = new ArrayList<>();
        for (YamlNode item : injections.items()) {
            items.add(hasTwin(item) ? merged((YamlMapping) item) : item);
        }
        return new YamlList(injections.at(), items);
    }

    /** What the twin says stands in place of what the injection says under the same key. */
    private YamlMapping merged(YamlMapping injection) {
        Map<String, YamlMapping.Entry> entries = new LinkedHashMap<>();
        for (YamlMapping.Entry entry : injection.entries()) {
            if (!entry.key().equals(KEY)) {
                entries.put(entry.key(), entry);
            }
        }
        for (YamlMapping.Entry entry : injection.entries()) {
            if (entry.key().equals(KEY)) {
                Optional<YamlMapping> twin =
                        values.mapping(entry.value(), "what is otherwise in the twin", "{ lasts: 120 ms }");
                if (twin.isPresent() && twin.get().entries().isEmpty()) {
                    findings.error(entry.at(), "the twin is the same", "say what is otherwise: { lasts: 120 ms }");
                }
                twin.ifPresent(mapping -> Fields.of(mapping, "a twin", KEYS, Set.of(), findings));
                twin.ifPresent(mapping -> mapping.entries().forEach(one -> entries.put(one.key(), one)));
            }
        }
        return new YamlMapping(injection.at(), List.copyOf(entries.values()));
    }
}
