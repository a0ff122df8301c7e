package snagbench.bench.judge;

/** The greatest of the values in a window of ticks whose edges only move on: a queue in which no value hides behind a greater. */
final class Extremes {
    private int[] ticks = new int[16];
    private long[] values = new long[16];
    private int first;
    private int end;

    /** Takes in the next tick. */
    void add(int tick, long value) {
        while (end > first && values[end - 1] <= value) {
            end--;
        }
        if (end == ticks.length) {
            makeRoom();
        }
        ticks[end] = tick;
        values[end++] = value;
    }

    private void makeRoom() {
        int size = end - first;
        int[] oldTicks = ticks;
        long[] oldValues = values;
        if (size > ticks.length / 2) {
            ticks = new int[2 * ticks.length];
            values = new long[ticks.length];
        }
        System.arraycopy(oldTicks, first, ticks, 0, size);
        System.arraycopy(oldValues, first, values, 0, size);
        first = 0;
        end = size;
    }

    /** Leaves out the ticks before one. */
    void dropBefore(int tick) {
        while (end > first && ticks[first] < tick) {
            first++;
        }
    }

    /** The greatest value left; there is one at least. */
    long greatest() {
        return values[first];
    }
}
