package snagbench.virtualrig.shuttle.control;

/** Speed from positions and tick times, over the last eight ticks. */
final class Speedometer {
    private static final int WINDOW = 8;
    private static final int PLACES = WINDOW + 1;
    private static final long MICROS_PER_SECOND = 1_000_000;

    private final int[] positions = new int[PLACES];
    private final int[] micros = new int[PLACES];
    private int newest = -1;
    private int count;

    void add(int position, int tickMicros) {
        newest = (newest + 1) % PLACES;
        positions[newest] = position;
        micros[newest] = tickMicros;
        count = Math.min(PLACES, count + 1);
    }

    void restart(int position, int tickMicros) {
        count = 0;
        add(position, tickMicros);
    }

    boolean isKnown() {
        return count == PLACES;
    }

    /** In 0.1 mm/s, rounded towards 0; only where it is known. */
    int speed() {
        int oldest = (newest + 1) % PLACES;
        int elapsed = micros[newest] - micros[oldest];
        return (int) ((positions[newest] - positions[oldest]) * MICROS_PER_SECOND / elapsed);
    }
}
