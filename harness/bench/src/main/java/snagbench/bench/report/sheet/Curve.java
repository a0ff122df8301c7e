package snagbench.bench.report.sheet;

import snagbench.bench.trace.Trace;

/**
 * A channel's readings as the path of a drawing: of all that falls into one column of the drawing, the first, least, greatest and last,
 * so that no peak is lost however many readings there are. Where nothing was recorded, the line is broken.
 */
final class Curve {
    /** How high a drawing is, in its own units; they are small, so that whole numbers will do. */
    static final int HEIGHT = 600;

    private final Trace trace;
    private final int channel;
    private final boolean told;
    private final Stretch stretch;
    private final int columns;

    private final StringBuilder path = new StringBuilder();
    private int drawnX;
    private int atX = -1;
    private int atY = -1;
    private boolean pen;
    /** Nothing but a point so far, which would not show. */
    private boolean isDot;

    /** Of what the control code was told, or of what was real. */
    Curve(Trace trace, int channel, boolean told, Stretch stretch, int columns) {
        this.trace = trace;
        this.channel = channel;
        this.told = told;
        this.stretch = stretch;
        this.columns = columns;
    }

    int least(int row) {
        return told ? trace.leastTold(row, channel) : trace.leastReal(row, channel);
    }

    int greatest(int row) {
        return told ? trace.greatestTold(row, channel) : trace.greatestReal(row, channel);
    }

    private int value(int row) {
        return told ? trace.told(row, channel) : trace.real(row, channel);
    }

    boolean shows(int row) {
        return trace.has(row, channel)
                && trace.micros(row) >= stretch.fromMicros()
                && trace.micros(row) <= stretch.toMicros();
    }

    /** What was told is drawn only where it differs, and one row to either side: elsewhere the real reading is what was told. */
    private boolean draws(int row) {
        return shows(row) && (!told || differs(row - 1) || differs(row) || differs(row + 1));
    }

    private boolean differs(int row) {
        return row >= 0
                && row < trace.rows()
                && trace.has(row, channel)
                && (trace.told(row, channel) != trace.real(row, channel)
                        || trace.leastTold(row, channel) != trace.leastReal(row, channel)
                        || trace.greatestTold(row, channel) != trace.greatestReal(row, channel));
    }

    /** The path, in columns across and {@link #HEIGHT} down; a column is one unit wide. */
    String path(long lowest, long highest) {
        int row = 0;
        int before = -1;
        while (row < trace.rows()) {
            if (!draws(row)) {
                row++;
                continue;
            }
            int column = column(trace.micros(row));
            int low = least(row);
            int high = greatest(row);
            int last = row;
            for (int next = row + 1; next < trace.rows() && follows(last, next); next++) {
                if (!draws(next) || column(trace.micros(next)) != column) {
                    break;
                }
                low = Math.min(low, least(next));
                high = Math.max(high, greatest(next));
                last = next;
            }
            if (before < 0 || before != row - 1 || !follows(before, row)) {
                lift();
            }
            to(column, y(value(row), lowest, highest));
            if (low < Math.min(value(row), value(last)) || high > Math.max(value(row), value(last))) {
                to(column, y(low, lowest, highest));
                to(column, y(high, lowest, highest));
            }
            to(column, y(value(last), lowest, highest));
            before = last;
            row = last + 1;
        }
        lift();
        return path.toString();
    }

    /** Whether nothing is missing between two rows. */
    private boolean follows(int row, int next) {
        return trace.tick(next) - trace.tick(row) <= (next - row) * trace.periodTicks();
    }

    private int column(long micros) {
        return (int) ((micros - stretch.fromMicros()) * (columns - 1) / stretch.micros());
    }

    private static int y(long value, long lowest, long highest) {
        return (int) (HEIGHT - Math.round((double) (value - lowest) * HEIGHT / (highest - lowest)));
    }

    /** A level stretch is drawn only once it ends. */
    private void to(int x, int y) {
        if (!pen) {
            path.append('M').append(x).append(' ').append(y);
            drawnX = x;
            pen = true;
            isDot = true;
        } else if (y != atY) {
            level();
            isDot = false;
            path.append(x == drawnX ? "V" + y : "L" + x + " " + y);
            drawnX = x;
        }
        atX = x;
        atY = y;
    }

    private void level() {
        if (atX != drawnX) {
            path.append('H').append(atX);
            drawnX = atX;
            isDot = false;
        }
    }

    private void lift() {
        if (pen) {
            level();
            if (isDot) {
                path.append("h1");
            }
        }
        pen = false;
    }
}
