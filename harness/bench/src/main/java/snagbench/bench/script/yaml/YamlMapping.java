package snagbench.bench.script.yaml;

import java.util.List;

/**
 * Keys with values. Each key is there once: of a key that is written twice, the first is kept.
 *
 * @param at where it starts
 * @param entries in their order
 */
public record YamlMapping(Position at, List<Entry> entries) implements YamlNode {
    /** Copies the list. */
    public YamlMapping {
        entries = List.copyOf(entries);
    }

    @Override
    public String words() {
        return "a mapping";
    }

    /**
     * A key and its value.
     *
     * @param at where the key starts
     * @param key without quotes
     * @param value what stands after the colon
     */
    public record Entry(Position at, String key, YamlNode value) {}
}
