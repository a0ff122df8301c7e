package snagbench.bench.script.yaml;

import java.util.Set;

/**
 * A text. Nothing is resolved: {@code no} is the text "no", {@code 010} is "010"; what a text stands for, its reader
 * decides.
 *
 * @param at where it starts
 * @param text without quotes
 * @param style how it is written
 * @param lastLine the line in which it ends, from 1
 */
public record YamlScalar(Position at, String text, Style style, int lastLine) implements YamlNode {
    private static final Set<String> NULLS = Set.of("", "~", "null", "Null", "NULL");

    /** How a text is written. */
    public enum Style {
        /** As it is. */
        PLAIN,
        /** In single or double quotes. */
        QUOTED,
        /** In lines of its own after {@code |} or {@code >}. */
        BLOCK
    }

    /**
     * Tells whether the value is left out: the null of YAML's core schema.
     *
     * @return true for a plain text that is empty, {@code ~} or {@code null}
     */
    public boolean isNothing() {
        return style == Style.PLAIN && NULLS.contains(text);
    }

    /**
     * Tells whether an unquoted text runs on into a further line: legal, and mostly a slip of indentation.
     *
     * @return true if it does
     */
    public boolean runsOn() {
        return style == Style.PLAIN && lastLine > at.line();
    }

    @Override
    public String words() {
        return isNothing() ? "nothing" : "a text";
    }
}
