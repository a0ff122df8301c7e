package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import snagbench.bench.script.schema.SchemaKind;
import snagbench.bench.script.schema.Schemas;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Makes the reference of the language, as a page, from its schemas. */
final class LanguageReference {
    private final StringBuilder out = new StringBuilder();
    private final SchemaKind kind;
    private final JsonNode schema;
    private final JsonNode parts;
    private final Set<String> wanted = new LinkedHashSet<>();

    private LanguageReference(SchemaKind kind) {
        this.kind = kind;
        this.schema = new JsonMapper().readTree(Schemas.text(kind));
        this.parts = schema.path("$defs");
    }

    static String page() {
        StringBuilder page = new StringBuilder("""
                # Language reference

                Every key of every file that a user writes. This page is made from the schemas in `schemas/`; a test makes it anew and compares. How to use the language stands in
                [writing fault scripts](writing-fault-scripts.md), the exact meaning of expectations in [expectations](expectations.md).

                """);
        for (SchemaKind kind : SchemaKind.values()) {
            page.append(new LanguageReference(kind).chapter());
        }
        return page.toString().strip() + "\n";
    }

    private String chapter() {
        out.append("## ").append(schema.path("title").asString()).append("\n\n");
        out.append(schema.path("description").asString()).append("\n\n");
        table(schema);
        List<String> done = new ArrayList<>();
        while (done.size() < wanted.size()) {
            String name = List.copyOf(wanted).get(done.size());
            done.add(name);
            part(name);
        }
        return out.toString();
    }

    private void part(String name) {
        JsonNode part = parts.path(name);
        out.append("### ").append(title(name)).append("\n\n");
        if (part.has("description")) {
            out.append(part.path("description").asString()).append("\n\n");
        }
        if (isMapping(part)) {
            table(part);
        } else {
            alternatives(part);
        }
        examples(part);
    }

    private void examples(JsonNode part) {
        if (part.has("examples")) {
            List<String> all = new ArrayList<>();
            part.path("examples").forEach(one -> all.add("`" + one.asString() + "`"));
            out.append("Such as ").append(String.join(", ", all)).append(".\n\n");
        }
    }

    private static boolean isMapping(JsonNode part) {
        return part.path("properties").size() > 0
                || part.path("additionalProperties").isObject();
    }

    private void alternatives(JsonNode part) {
        for (JsonNode one : part.path("anyOf")) {
            if (isMapping(one)) {
                if (one.has("description")) {
                    JsonNode first = one.path("required").path(0);
                    String key = first.isMissingNode() ? "" : "**`" + first.asString() + "`**: ";
                    out.append(key).append(one.path("description").asString()).append("\n\n");
                }
                table(one);
            } else {
                out.append("- ").append(value(one)).append('\n');
            }
        }
        out.append('\n');
    }

    private void table(JsonNode mapping) {
        Set<String> required = new LinkedHashSet<>();
        mapping.path("required").forEach(one -> required.add(one.asString()));
        out.append("| key | what it says | value | needed |\n| --- | --- | --- | --- |\n");
        for (Map.Entry<String, JsonNode> key : mapping.path("properties").properties()) {
            if (!key.getValue().isBoolean()) {
                row("`" + key.getKey() + "`", key.getValue(), required.contains(key.getKey()));
            }
        }
        if (mapping.path("additionalProperties").isObject()) {
            JsonNode names = mapping.path("propertyNames");
            row(names.has("$ref") ? link(names) : "a name", mapping.path("additionalProperties"), false);
        }
        out.append('\n');
    }

    private void row(String key, JsonNode value, boolean needed) {
        JsonNode part = value.has("$ref") ? parts.path(name(value)) : value;
        String says =
                (value.has("description") ? value : part).path("description").asString("");
        String shown = says.replace("|", "\\|");
        out.append("| ").append(key).append(" | ").append(shown).append(" | ");
        out.append(value(value)).append(" | ").append(needed ? "yes" : "no").append(" |\n");
    }

    private static String name(JsonNode reference) {
        String text = reference.path("$ref").asString();
        return text.substring(text.lastIndexOf('/') + 1);
    }

    private String link(JsonNode reference) {
        String name = name(reference);
        if (parts.path(name).size() <= 1 && !parts.path(name).has("anyOf")) {
            return title(name);
        }
        wanted.add(name);
        String anchor = title(name).replace(' ', '-');
        return "[" + title(name) + "](#" + anchor + ")";
    }

    /** "rigCondition" as "rig condition"; in the other chapters with the kind of file, since headings differ. */
    private String title(String name) {
        String words = name.replaceAll("([A-Z])", " $1").toLowerCase(java.util.Locale.ROOT);
        return kind == SchemaKind.FAULT_SCRIPT ? words : words + " in a " + kind.word() + " file";
    }

    private String value(JsonNode value) {
        if (value.has("$ref")) {
            return link(value);
        }
        if (value.path("type").asString("").equals("array")) {
            return "list of: " + value(value.path("items"));
        }
        if (value.has("enum")) {
            List<String> all = new ArrayList<>();
            value.path("enum").forEach(one -> all.add("`" + one.asString() + "`"));
            return String.join(", ", all);
        }
        if (value.has("anyOf")) {
            List<String> all = new ArrayList<>();
            value.path("anyOf").forEach(one -> {
                String text = value(one);
                if (!all.contains(text)) {
                    all.add(text);
                }
            });
            return String.join(", or ", all);
        }
        if (value.path("type").asString("").equals("object")) {
            return object(value);
        }
        if (value.path("type").asString("").equals("integer")) {
            return "whole number";
        }
        if (value.path("type").asString("").equals("boolean")) {
            return "`true`, `false`";
        }
        return "text";
    }

    private String object(JsonNode value) {
        List<String> keys = new ArrayList<>();
        value.path("properties").properties().forEach(key -> {
            if (!key.getValue().isBoolean()) {
                keys.add("`" + key.getKey() + "`: " + value(key.getValue()));
            }
        });
        if (value.path("additionalProperties").isObject()) {
            JsonNode names = value.path("propertyNames");
            keys.add((names.has("$ref") ? link(names) : "name") + ": " + value(value.path("additionalProperties")));
        }
        return "{ " + String.join("; ", keys) + " }";
    }
}
