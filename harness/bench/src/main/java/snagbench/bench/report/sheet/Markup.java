package snagbench.bench.report.sheet;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.regex.Pattern;
import snagbench.bench.report.PlainText;

/**
 * Writes HTML and the SVG in it. The one place that escapes: whatever is given as a text or as the value of an attribute stands for
 * itself, whoever wrote it. Names of elements and attributes are ours and are checked, since they cannot be escaped.
 */
final class Markup {
    private static final Pattern NAME = Pattern.compile("[a-zA-Z][a-zA-Z0-9-]*");

    private final StringBuilder out = new StringBuilder();
    private final Deque<String> open = new ArrayDeque<>();

    /**
     * Opens an element.
     *
     * @param element its name
     * @param attributes names and values by turns
     */
    Markup open(String element, String... attributes) {
        begin(element, attributes);
        out.append('>');
        open.push(element);
        return this;
    }

    /** Closes the element that was opened last. */
    Markup close() {
        out.append("</").append(open.pop()).append('>');
        return this;
    }

    /** As {@link #close()}, with a line's end behind it, so that the file can be read and compared. */
    Markup closeLine() {
        close();
        out.append('\n');
        return this;
    }

    /** An element without content, such as a rectangle or a line's break. */
    Markup empty(String element, String... attributes) {
        begin(element, attributes);
        out.append("/>");
        return this;
    }

    /** An element with nothing in it but a text. */
    Markup leaf(String element, String text, String... attributes) {
        return open(element, attributes).text(text).close();
    }

    /** A text. */
    Markup text(String text) {
        escape(PlainText.of(text));
        return this;
    }

    /** A name that somebody else chose: its direction of writing does not reach beyond it. */
    Markup name(String name) {
        return leaf("bdi", name);
    }

    /** Short names that a line breaks between and, unless one is longer than its line, never within: not even at a hyphen. */
    Markup names(List<String> names, String between) {
        for (int i = 0; i < names.size(); i++) {
            text(i == 0 ? "" : between).leaf("bdi", names.get(i), "class", "whole");
        }
        return this;
    }

    /** A style sheet or program of ours, which is not escaped within its element. */
    Markup ours(String element, String content) {
        if (content.contains("</")) {
            throw new IllegalArgumentException("would end the element it stands in");
        }
        begin(element);
        out.append('>').append(content).append("</").append(element).append(">\n");
        return this;
    }

    private void begin(String element, String... attributes) {
        out.append('<').append(checked(element));
        for (int i = 0; i < attributes.length; i += 2) {
            out.append(' ').append(checked(attributes[i])).append("=\"");
            escape(PlainText.of(attributes[i + 1]));
            out.append('"');
        }
    }

    private static String checked(String name) {
        if (!NAME.matcher(name).matches()) {
            throw new IllegalArgumentException("not the name of an element or attribute: " + name);
        }
        return name;
    }

    private void escape(String text) {
        for (int i = 0; i < text.length(); i++) {
            char letter = text.charAt(i);
            switch (letter) {
                case '&' -> out.append("&amp;");
                case '<' -> out.append("&lt;");
                case '>' -> out.append("&gt;");
                case '"' -> out.append("&quot;");
                case '\'' -> out.append("&#39;");
                default -> out.append(letter);
            }
        }
    }

    /** The whole, once every element is closed. */
    String whole() {
        if (!open.isEmpty()) {
            throw new IllegalStateException("not closed: " + open);
        }
        return "<!DOCTYPE html>\n" + out + "\n";
    }
}
