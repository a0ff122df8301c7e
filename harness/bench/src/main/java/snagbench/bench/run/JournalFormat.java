package snagbench.bench.run;

import java.nio.file.Path;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.JsonParser;
import tools.jackson.databind.DeserializationContext;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.SerializationContext;
import tools.jackson.databind.deser.std.StdDeserializer;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.module.SimpleModule;
import tools.jackson.databind.node.ObjectNode;
import tools.jackson.databind.ser.std.StdSerializer;

/** A journal's lines as JSON: what a line is, its first member says; the rest are the record's own components. */
public final class JournalFormat {
    private static final String KIND = "line";

    /** Mappers do not change, and what one has found out about a record is worth keeping. */
    private static final JsonMapper MAPPER = JsonMapper.builder()
            .addModule(new SimpleModule()
                    .addSerializer(Path.class, new PathAsText())
                    .addDeserializer(Path.class, new TextAsPath()))
            .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            // A journal of before has not all figures yet.
            .disable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
            .build();

    JournalFormat() {}

    /**
     * A mapper that writes and reads the records of this project, paths as plain text.
     *
     * @return the mapper
     */
    public static JsonMapper mapper() {
        return MAPPER;
    }

    String line(RunHeader header) {
        return line("header", header);
    }

    String line(ScriptResult result) {
        return line("result", result);
    }

    String line(ChangeResult result) {
        return line("change", result);
    }

    String line(RunEnd end) {
        return line("end", end);
    }

    private String line(String kind, Object content) {
        ObjectNode line = MAPPER.createObjectNode();
        line.put(KIND, kind);
        line.setAll((ObjectNode) MAPPER.valueToTree(content));
        return MAPPER.writeValueAsString(line);
    }

    /** The record in a line; a header, a result, a change or an end. */
    Object read(String line) {
        JsonNode tree = MAPPER.readTree(line);
        Class<?> type =
                switch (tree.path(KIND).asString("")) {
                    case "header" -> RunHeader.class;
                    case "result" -> ScriptResult.class;
                    case "change" -> ChangeResult.class;
                    case "end" -> RunEnd.class;
                    default -> throw new IllegalArgumentException("no header, result, change or end");
                };
        return MAPPER.treeToValue(tree, type);
    }

    private static final class PathAsText extends StdSerializer<Path> {
        PathAsText() {
            super(Path.class);
        }

        @Override
        public void serialize(Path path, JsonGenerator to, SerializationContext context) {
            to.writeString(path.toString());
        }
    }

    private static final class TextAsPath extends StdDeserializer<Path> {
        TextAsPath() {
            super(Path.class);
        }

        @Override
        public Path deserialize(JsonParser from, DeserializationContext context) {
            return Path.of(from.getString());
        }
    }
}
