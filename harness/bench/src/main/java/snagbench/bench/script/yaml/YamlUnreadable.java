package snagbench.bench.script.yaml;

/**
 * Something that was not taken, and of which the document's problems tell already; readers pass over it in silence.
 *
 * @param at where it starts
 */
public record YamlUnreadable(Position at) implements YamlNode {
    @Override
    public String words() {
        return "something that could not be read";
    }
}
