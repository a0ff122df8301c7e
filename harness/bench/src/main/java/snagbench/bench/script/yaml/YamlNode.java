package snagbench.bench.script.yaml;

/** A part of a YAML file. */
public sealed interface YamlNode permits YamlScalar, YamlList, YamlMapping, YamlUnreadable {
    /**
     * Where it starts.
     *
     * @return the place of its first character
     */
    Position at();

    /**
     * What it is, in words, for messages.
     *
     * @return such as "a list"
     */
    String words();
}
