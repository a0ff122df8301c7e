package snagbench.bench.script.write;

import java.util.regex.Pattern;

/** Lines of a YAML file. */
final class Lines {
    /** What stands without quotes and means itself everywhere, also in braces. */
    private static final Pattern PLAIN =
            Pattern.compile("[A-Za-z0-9$][A-Za-z0-9 ._%/+()$-]*[A-Za-z0-9._%/+()]|[A-Za-z0-9]");

    private final StringBuilder out = new StringBuilder();

    /** A line, indented by so many steps of two spaces. */
    void add(int depth, String line) {
        out.append("  ".repeat(depth)).append(line).append('\n');
    }

    /** A key with a value that is written as YAML already. */
    void add(int depth, String key, String value) {
        add(depth, key(key) + ": " + value);
    }

    @Override
    public String toString() {
        return out.toString();
    }

    /** A text as a value. */
    static String text(String text) {
        return PLAIN.matcher(text).matches() && !text.equalsIgnoreCase("null")
                ? text
                : "'" + text.replace("'", "''") + "'";
    }

    /** A text as a key. */
    static String key(String text) {
        return text(text);
    }
}
