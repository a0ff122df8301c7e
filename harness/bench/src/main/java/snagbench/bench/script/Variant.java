package snagbench.bench.script;

import java.util.List;
import java.util.stream.Collectors;

/**
 * Which one of the scripts that one file stands for ({@code vary}).
 *
 * @param settings one for each parameter, in the file's order; at least one
 */
public record Variant(List<Setting> settings) {
    /** Copies the list. */
    public Variant {
        settings = List.copyOf(settings);
    }

    /**
     * As people read it.
     *
     * @return such as "at 20 mm, current 5 A"
     */
    public String show() {
        return settings.stream().map(one -> one.name() + " " + one.value()).collect(Collectors.joining(", "));
    }

    /**
     * The value of one parameter.
     *
     * @param name of the parameter
     * @param value a figure with its unit, or a text such as a step, as it stands in the script
     */
    public record Setting(String name, String value) {}
}
