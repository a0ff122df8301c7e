package snagbench.bench.script.yaml;

import java.util.List;

/**
 * A list.
 *
 * @param at where it starts
 * @param items in their order
 */
public record YamlList(Position at, List<YamlNode> items) implements YamlNode {
    /** Copies the list. */
    public YamlList {
        items = List.copyOf(items);
    }

    @Override
    public String words() {
        return "a list";
    }
}
