package snagbench.bench.script.yaml;

/**
 * Something wrong with the YAML itself.
 *
 * @param at where
 * @param message what was found
 * @param cure what would do; may be empty
 */
public record YamlProblem(Position at, String message, String cure) {}
