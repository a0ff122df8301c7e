package snagbench.bench.trace;

import java.util.Arrays;
import snagbench.wire.CborReader;
import snagbench.wire.CborWriter;

/** Integers of one piece of a file, gathered before it is known how many they are, or read one by one. */
final class Integers {
    private int[] values = new int[Frames.MOST_INTEGERS];
    private int size;
    private int at;
    private boolean failed;

    void clear() {
        size = 0;
    }

    void add(int value) {
        if (size == values.length) {
            values = Arrays.copyOf(values, 2 * size);
        }
        values[size++] = value;
    }

    int size() {
        return size;
    }

    void writeTo(CborWriter out) {
        for (int i = 0; i < size; i++) {
            out.integer(values[i]);
        }
    }

    /** All that is left in a piece. */
    void readFrom(CborReader in, int count) {
        clear();
        at = 0;
        failed = false;
        for (int i = 0; i < count && !in.failed(); i++) {
            add(in.int32());
        }
        failed = in.failed();
    }

    boolean hasNext() {
        return !failed && at < size;
    }

    int next() {
        if (at >= size) {
            failed = true;
            return 0;
        }
        return values[at++];
    }

    boolean failed() {
        return failed;
    }
}
