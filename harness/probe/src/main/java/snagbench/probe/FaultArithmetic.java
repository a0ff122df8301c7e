package snagbench.probe;

/**
 * What an override does to a reading, exactly: 32-bit integers in, 64 bits between. A fixed-point rate is in steps per
 * microsecond times 2^32; it is multiplied with the elapsed time and never accumulated, so that uneven ticks make no
 * error. The authority is the chapter on arithmetic in {@code firmware-notes/wire-format.md}.
 */
final class FaultArithmetic {
    /** Bits behind the point of a rate. */
    static final int RATE_BITS = 32;

    /** Bits behind the point of a scale. */
    static final int SCALE_BITS = 16;

    private FaultArithmetic() {}

    /** The value is held to 32 bits first: a scale of a scale of a scale would leave 64. */
    static long scaled(long value, int factor) {
        long held = Math.max(Integer.MIN_VALUE, Math.min(Integer.MAX_VALUE, value));
        return (held * factor + (1L << (SCALE_BITS - 1))) >> SCALE_BITS;
    }

    /** What a drift has come to. */
    static long drifted(int rate, int elapsedMicros) {
        return ((long) rate * elapsedMicros) >> RATE_BITS;
    }

    /** What an offset has come to; without a rate it is there at once. */
    static long offset(int whole, int rate, int elapsedMicros) {
        if (rate == 0) {
            return whole;
        }
        long ramped = drifted(rate, elapsedMicros);
        return whole >= 0 ? Math.min(ramped, whole) : Math.max(ramped, whole);
    }
}
