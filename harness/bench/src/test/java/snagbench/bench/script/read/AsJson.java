package snagbench.bench.script.read;

import java.util.Set;
import snagbench.bench.script.yaml.YamlList;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.bench.script.yaml.YamlScalar;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** A file as an editor sees it: plain texts resolved by the core schema of YAML 1.2 (chapter 10.3). */
final class AsJson {
    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
    private static final Set<String> TRUE = Set.of("true", "True", "TRUE");
    private static final Set<String> FALSE = Set.of("false", "False", "FALSE");

    private AsJson() {}

    static JsonNode of(YamlNode node) {
        if (node instanceof YamlMapping mapping) {
            ObjectNode object = NODES.objectNode();
            mapping.entries().forEach(entry -> object.set(entry.key(), of(entry.value())));
            return object;
        }
        if (node instanceof YamlList list) {
            ArrayNode array = NODES.arrayNode();
            list.items().forEach(item -> array.add(of(item)));
            return array;
        }
        return node instanceof YamlScalar scalar ? scalar(scalar) : NODES.nullNode();
    }

    private static JsonNode scalar(YamlScalar scalar) {
        String text = scalar.text();
        if (scalar.style() != YamlScalar.Style.PLAIN) {
            return NODES.stringNode(text);
        }
        if (scalar.isNothing()) {
            return NODES.nullNode();
        }
        if (TRUE.contains(text) || FALSE.contains(text)) {
            return NODES.booleanNode(TRUE.contains(text));
        }
        if (text.matches("[-+]?[0-9]+")) {
            return NODES.numberNode(new java.math.BigInteger(text));
        }
        if (text.matches("0x[0-9a-fA-F]+|0o[0-7]+")) {
            return NODES.numberNode(new java.math.BigInteger(text.substring(2), text.charAt(1) == 'x' ? 16 : 8));
        }
        if (text.matches("[-+]?(\\.[0-9]+|[0-9]+(\\.[0-9]*)?)([eE][-+]?[0-9]{1,3})?")) {
            return NODES.numberNode(Double.parseDouble(text));
        }
        return NODES.stringNode(text);
    }
}
