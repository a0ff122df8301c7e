package snagbench.bench.judge;

import snagbench.bench.script.Source;
import snagbench.bench.trace.Trace;

/** A channel of the rig, as it was recorded. Where its record was lost it may have been any 32-bit value. */
final class RecordedCells implements Cells {
    private final Trace trace;
    private final int channel;
    private final boolean told;
    private final RowCursor cursor;
    private int askedTick = Integer.MIN_VALUE;
    private int askedRow;

    RecordedCells(Trace trace, int channel, Source source) {
        this.trace = trace;
        this.channel = channel;
        this.told = source == Source.TOLD;
        this.cursor = new RowCursor(trace);
    }

    @Override
    public long least(int tick) {
        int row = rowOf(tick);
        if (row < 0) {
            return Integer.MIN_VALUE;
        }
        return trace.tick(row) == tick
                ? point(row)
                : told ? trace.leastTold(row, channel) : trace.leastReal(row, channel);
    }

    @Override
    public long greatest(int tick) {
        int row = rowOf(tick);
        if (row < 0) {
            return Integer.MAX_VALUE;
        }
        return trace.tick(row) == tick
                ? point(row)
                : told ? trace.greatestTold(row, channel) : trace.greatestReal(row, channel);
    }

    /** The row that speaks for a tick; -1 where there is none. A tick is mostly asked about several times in a row. */
    private int rowOf(int tick) {
        if (tick != askedTick) {
            int row = cursor.rowAtOrAfter(tick);
            boolean isThere =
                    row < trace.rows() && tick > trace.tick(row) - trace.periodTicks() && trace.has(row, channel);
            askedRow = isThere ? row : -1;
            askedTick = tick;
        }
        return askedRow;
    }

    private int point(int row) {
        return told ? trace.told(row, channel) : trace.real(row, channel);
    }

    @Override
    public long[] seenIn(int row) {
        if (!trace.has(row, channel)) {
            return new long[0];
        }
        return told
                ? new long[] {point(row), trace.leastTold(row, channel), trace.greatestTold(row, channel)}
                : new long[] {point(row), trace.leastReal(row, channel), trace.greatestReal(row, channel)};
    }

    @Override
    public boolean isOpen(int tick) {
        return rowOf(tick) < 0;
    }
}
