package snagbench.bench.script.schema;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Gives the schemas (JSON Schema, draft 2020-12). */
public final class Schemas {
    private Schemas() {}

    /**
     * The schema of a kind of file, for any rig.
     *
     * @param kind the kind
     * @return its text, as it lies in the repository under {@code docs/schemas}
     */
    public static String text(SchemaKind kind) {
        return text(kind.word());
    }

    /**
     * The schema of what a run leaves for programs, {@code results.json}: no file that anybody writes by hand.
     *
     * @return its text, as it lies in the repository under {@code docs/schemas}
     */
    public static String ofResults() {
        return text("results");
    }

    private static String text(String kind) {
        String name = kind + ".schema.json";
        try (InputStream in = Schemas.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException("not built with its schemas: " + name);
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * The schema of a kind of file for one rig: it knows the rig's channels, the names of their values, its fail-safes
     * and the faults that its file names.
     *
     * @param kind the kind
     * @param rig what the rig tells of itself
     * @param file what people know of it
     * @return its text
     */
    public static String text(SchemaKind kind, RigDescription rig, RigFile file) {
        JsonMapper mapper = new JsonMapper();
        ObjectNode schema = (ObjectNode) mapper.readTree(text(kind));
        new RigSchema(schema, rig, file).fill(kind);
        return mapper.writerWithDefaultPrettyPrinter().writeValueAsString(schema) + "\n";
    }
}
