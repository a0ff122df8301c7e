package snagbench.bench.script.read;

import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.YamlScalar;

/**
 * A piece of a text in a file.
 *
 * @param at where it starts
 * @param text without space around it
 */
record Part(Position at, String text) {
    static Part of(YamlScalar scalar) {
        // Behind escapes in quotes the column would be a little off; nobody writes a figure so.
        int quote = scalar.style() == YamlScalar.Style.QUOTED ? 1 : 0;
        return new Part(scalar.at().plus(quote), scalar.text()).from(0);
    }

    /** The rest from an offset on. */
    Part from(int offset) {
        return between(offset, text.length());
    }

    /** What lies between two offsets. */
    Part between(int start, int end) {
        int first = start;
        while (first < end && Character.isWhitespace(text.charAt(first))) {
            first++;
        }
        return new Part(
                at.plus(text.codePointCount(0, first)),
                text.substring(first, end).strip());
    }
}
