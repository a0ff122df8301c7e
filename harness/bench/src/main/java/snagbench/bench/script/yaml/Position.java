package snagbench.bench.script.yaml;

import java.util.Comparator;

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
     * A place further on in the same line.
     *
     * @param columns how many code points further
     * @return the place
     */
    public Position plus(int columns) {
        return new Position(line, column + columns);
    }
}
