package snagbench.bench.trace;

/**
 * What changes from one row to the next. A tick is expected to be a period behind the one before, a time to be as far behind
 * as the time before was behind its own; every other integer is expected to stay. What comes otherwise is a change. Reader
 * and writer start anew with each piece of a file, from a row of zeros, so that each can be read without those before.
 */
final class RowChanges {
    private final int periodTicks;
    private final int[] row;
    private int step;

    RowChanges(int length, int periodTicks) {
        this.periodTicks = periodTicks;
        this.row = new int[length];
    }

    int[] row() {
        return row;
    }

    /** What the next row would be if nothing came otherwise. */
    private int expected(int place) {
        if (place == RowLayout.TICK) {
            return row[place] + periodTicks;
        }
        return place == RowLayout.MICROS ? row[place] + step : row[place];
    }

    /** Writes the changes to a row, which then is the row before. */
    void write(int[] next, Integers to) {
        int count = 0;
        for (int i = 0; i < row.length; i++) {
            count += next[i] == expected(i) ? 0 : 1;
        }
        to.add(count);
        int place = 0;
        for (int i = 0; i < row.length; i++) {
            int expected = expected(i);
            if (next[i] != expected) {
                to.add(i - place);
                to.add(next[i] - expected);
                place = i + 1;
            }
        }
        advance(next);
    }

    /**
     * Takes a number of changes; {@link #row} then is the next row.
     *
     * @return false if they are no changes of such a row
     */
    boolean read(int count, Integers from) {
        int[] next = new int[row.length];
        for (int i = 0; i < row.length; i++) {
            next[i] = expected(i);
        }
        int place = 0;
        for (int i = 0; i < count; i++) {
            int skip = from.next();
            if (from.failed() || skip < 0 || skip >= row.length - place) {
                return false;
            }
            place += skip;
            next[place] += from.next();
            place++;
        }
        if (from.failed()) {
            return false;
        }
        advance(next);
        return true;
    }

    private void advance(int[] next) {
        step = next[RowLayout.MICROS] - row[RowLayout.MICROS];
        System.arraycopy(next, 0, row, 0, row.length);
    }
}
