package snagbench.bench.script.yaml;

import java.util.Comparator;
import java.util.List;

/**
 * A place in a text.
 *
 * @param line from 1
 * @param column from 1, in code points
 */
public record Position(int line, int column) implements Comparable<Position> {
    /** The first character of a text. */
    public static final Position START = new Position(1, 1);

    private static final Comparator<Position> ORDER =
            Comparator.comparingInt(Position::line).thenComparingInt(Position::column);

    @Override
    public int compareTo(Position other) {
        return ORDER.compare(this, other);
    }

    /**
     * The nearest place that lies in a text: a parser may give one behind its last line, and behind an escape in quotes
     * a column is not known exactly.
     *
     * @param lines of the text, without their ends
     * @return a place on one of its characters or right behind the last one of a line
     */
    public Position inside(List<String> lines) {
        int nearest = Math.max(1, Math.min(line, lines.size()));
        String text = nearest <= lines.size() ? lines.get(nearest - 1) : "";
        int end = text.codePointCount(0, text.length()) + 1;
        return new Position(nearest, nearest == line ? Math.max(1, Math.min(column, end)) : end);
    }

    /**
     * A place further on in the same line.
     *
     * @param columns how many code points further
     * @return the place
     */
    public Position plus(int columns) {
        return new Position(line, column + columns);
    }
}
