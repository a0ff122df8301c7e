package snagbench.bench.judge;

import java.util.Arrays;

/** Readings for tests: a span a tick, given as {least, greatest}; a point where both are one. */
final class Spans implements Cells {
    static final long[] OPEN = {LEAST, GREATEST};

    private final long[][] ofTicks;

    private Spans(long[][] ofTicks) {
        this.ofTicks = ofTicks;
    }

    static Spans points(long... values) {
        return new Spans(
                Arrays.stream(values).mapToObj(one -> new long[] {one, one}).toArray(long[][]::new));
    }

    static Spans of(long[]... ofTicks) {
        return new Spans(ofTicks);
    }

    static long[] span(long least, long greatest) {
        return new long[] {least, greatest};
    }

    @Override
    public long least(int tick) {
        return ofTicks[tick][0];
    }

    @Override
    public long greatest(int tick) {
        return ofTicks[tick][1];
    }

    @Override
    public int firstTick() {
        return 3;
    }
}
