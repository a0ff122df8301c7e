package snagbench.bench.run;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;
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

    /**
     * Tells what a record lacks that was read by that mapper.
     *
     * @param whole the record
     * @return name of the first member that is left out or null, and may not be; empty where nothing is missing
     */
    public static Optional<String> missing(Record whole) {
        return Missing.in(whole);
    }

    /** The record in a line; a header, a result, a change or an end. Names in it that are to be those of files can be. */
    Record read(String line) {
        JsonNode tree = MAPPER.readTree(line);
        Class<? extends Record> type =
                switch (tree.path(KIND).asString("")) {
                    case "header" -> RunHeader.class;
                    case "result" -> ScriptResult.class;
                    case "change" -> ChangeResult.class;
                    case "end" -> RunEnd.class;
                    default -> throw new IllegalArgumentException("no header, result, change or end");
                };
        Record read = MAPPER.treeToValue(tree, type);
        Optional<String> missing = missing(read);
        if (missing.isPresent()) {
            throw new IllegalArgumentException("it lacks \"" + missing.get() + "\"");
        }
        if (read instanceof RunHeader header) {
            path("file", header.file());
            path("rig", header.rig());
        } else if (read instanceof ScriptResult result) {
            result.trace().ifPresent(trace -> path("trace", trace));
        }
        return read;
    }

    private static Path path(String member, String name) {
        try {
            return Path.of(name);
        } catch (InvalidPathException e) {
            throw new IllegalArgumentException("its \"" + member + "\" is no name of a file: " + e.getReason(), e);
        }
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
            String name = from.getString();
            try {
                return Path.of(name);
            } catch (InvalidPathException e) {
                throw context.weirdStringException(name, Path.class, "no name of a file: " + e.getReason());
            }
        }
    }
}
