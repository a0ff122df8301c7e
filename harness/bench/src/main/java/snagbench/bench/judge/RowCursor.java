package snagbench.bench.judge;

import snagbench.bench.trace.Trace;

/** Finds rows by their ticks. Ticks are mostly asked for in order, up or down, so that it is mostly the last row or its neighbour. */
final class RowCursor {
    private static final int NEAR = 64;

    private final Trace trace;
    private int row;

    RowCursor(Trace trace) {
        this.trace = trace;
    }

    /** The first row at a tick or behind it; the number of rows where there is none. */
    int rowAtOrAfter(int tick) {
        int rows = trace.rows();
        while (row < rows && trace.tick(row) < tick && tick - trace.tick(row) <= NEAR) {
            row++;
        }
        while (row > 0 && trace.tick(row - 1) >= tick && trace.tick(row - 1) - tick <= NEAR) {
            row--;
        }
        boolean fits = (row == rows || trace.tick(row) >= tick) && (row == 0 || trace.tick(row - 1) < tick);
        if (!fits) {
            row = trace.rowAtOrAfter(tick);
        }
        return row;
    }
}
