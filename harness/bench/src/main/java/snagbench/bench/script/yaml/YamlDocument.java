package snagbench.bench.script.yaml;

import java.util.List;
import java.util.Optional;

/**
 * What could be read of a YAML file, and all that is wrong with its YAML.
 *
 * @param root the whole; empty for an empty file and where the YAML cannot be parsed
 * @param lines the lines of the file, without their ends
 * @param problems in the order of the file
 */
public record YamlDocument(Optional<YamlNode> root, List<String> lines, List<YamlProblem> problems) {
    /** Copies the lists. */
    public YamlDocument {
        lines = List.copyOf(lines);
        problems = List.copyOf(problems);
    }
}
