package snagbench.bench.script.read;

import java.util.Collection;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.bench.script.yaml.YamlUnreadable;

/** The keys of a mapping, of which only some have a meaning. */
final class Fields {
    private final YamlMapping mapping;
    private final String what;
    private final Findings findings;
    private final Set<String> misspelt = new HashSet<>();

    private Fields(YamlMapping mapping, String what, Findings findings) {
        this.mapping = mapping;
        this.what = what;
        this.findings = findings;
    }

    /**
     * Takes a mapping and reports the keys that mean nothing in it.
     *
     * @param what whose keys they are, such as "an injection"
     * @param known keys that have a meaning
     * @param later keys that the language has, and this version does not take
     */
    static Fields of(
            YamlMapping mapping, String what, Collection<String> known, Collection<String> later, Findings findings) {
        Fields fields = new Fields(mapping, what, findings);
        for (YamlMapping.Entry entry : mapping.entries()) {
            if (later.contains(entry.key())) {
                findings.error(
                        entry.at(),
                        Shown.quoted(entry.key()) + " is not in this version",
                        "take it out; " + what + " takes: " + String.join(", ", known));
            } else if (!known.contains(entry.key())) {
                fields.unknown(entry, known);
            }
        }
        return fields;
    }

    private void unknown(YamlMapping.Entry entry, Collection<String> known) {
        if (!findings.isFull()) {
            NearestName.of(entry.key(), known).ifPresent(misspelt::add);
        }
        findings.error(
                entry.at(),
                what + " has no key " + Shown.quoted(entry.key()),
                () -> entry.key().contains(":")
                        ? "a space is wanted after the colon"
                        : NearestName.cure(entry.key(), known, what + " takes"));
    }

    /** Where the mapping starts. */
    Position at() {
        return mapping.at();
    }

    boolean has(String key) {
        return mapping.entries().stream().anyMatch(entry -> entry.key().equals(key));
    }

    /** Whether a key is neither there nor the one that was most likely meant by a key that is. */
    boolean lacks(String key) {
        return !has(key) && !misspelt.contains(key);
    }

    /** Where a key stands; the mapping's start if it is not there. */
    Position at(String key) {
        return mapping.entries().stream()
                .filter(entry -> entry.key().equals(key))
                .map(YamlMapping.Entry::at)
                .findFirst()
                .orElse(mapping.at());
    }

    /** A value, if its key is there. */
    Optional<YamlNode> optional(String key) {
        return mapping.entries().stream()
                .filter(entry -> entry.key().equals(key))
                .map(YamlMapping.Entry::value)
                .filter(value -> !(value instanceof YamlUnreadable))
                .findFirst();
    }

    /** A value whose key must be there. */
    Optional<YamlNode> required(String key, String example) {
        if (lacks(key)) {
            findings.error(mapping.at(), what + " lacks " + Shown.quoted(key), "add \"" + key + ": " + example + "\"");
        }
        return optional(key);
    }
}
