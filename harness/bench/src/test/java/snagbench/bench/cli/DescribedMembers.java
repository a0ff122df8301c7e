package snagbench.bench.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import tools.jackson.databind.JsonNode;

/**
 * Which members a schema describes, read strictly: the shipped schema is open, so that a member which it forgot would be valid. Knows
 * properties, items, references and anyOf, which is all that the schema of results uses.
 */
final class DescribedMembers {
    private final JsonNode root;
    private final Set<String> seen = new TreeSet<>();

    DescribedMembers(JsonNode root) {
        this.root = root;
    }

    /** Members of a file that the schema does not describe, by where they stand. */
    List<String> missingOf(JsonNode value) {
        Set<String> missing = new TreeSet<>();
        walk("", root, "", value, missing);
        return List.copyOf(missing);
    }

    /** Members that the schema describes and that no file so far had, or only as null. */
    List<String> notSeen() {
        Set<String> all = new TreeSet<>();
        gather("", root, all);
        all.removeAll(seen);
        return List.copyOf(all);
    }

    private void walk(String at, JsonNode schema, String path, JsonNode value, Set<String> missing) {
        if (value.isArray()) {
            for (Part part : parts(at, schema)) {
                value.forEach(item -> walk(part.at + "/items", part.schema.path("items"), path + "[]", item, missing));
            }
            return;
        }
        for (String name : value.propertyNames()) {
            boolean found = false;
            for (Part part : parts(at, schema)) {
                JsonNode member = part.schema.path("properties").path(name);
                if (!member.isMissingNode()) {
                    found = true;
                    if (!value.path(name).isNull()) {
                        seen.add(part.at + "/" + name);
                    }
                    walk(part.at + "/" + name, member, path + "." + name, value.path(name), missing);
                }
            }
            if (!found) {
                missing.add(path + "." + name);
            }
        }
    }

    private void gather(String at, JsonNode schema, Set<String> all) {
        for (Part part : parts(at, schema)) {
            if (!part.schema.path("items").isMissingNode()) {
                gather(part.at + "/items", part.schema.path("items"), all);
            }
            for (String name : part.schema.path("properties").propertyNames()) {
                if (all.add(part.at + "/" + name)) {
                    gather(part.at + "/" + name, part.schema.path("properties").path(name), all);
                }
            }
        }
    }

    /** A schema with whatever it refers to; a definition is one and the same wherever it is used. */
    private List<Part> parts(String at, JsonNode schema) {
        List<Part> parts = new ArrayList<>();
        parts.add(new Part(at, schema));
        String ref = schema.path("$ref").asString("");
        if (!ref.isEmpty()) {
            parts.addAll(parts(ref, root.at(ref.substring(1))));
        }
        schema.path("anyOf").forEach(one -> parts.addAll(parts(at, one)));
        return parts;
    }

    private record Part(String at, JsonNode schema) {}
}
