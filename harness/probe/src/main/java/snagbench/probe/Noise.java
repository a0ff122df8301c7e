package snagbench.probe;

/**
 * The noise of one entry: xorshift32 with the shifts 13, 17 and 5 (G. Marsaglia, Xorshift RNGs, Journal of Statistical
 * Software 8(14), 2003), and of each draw the sum of its four bytes, which is near enough to a normal distribution out
 * to 3.45 standard deviations.
 */
final class Noise {
    /** Bits behind the point of an amplitude. */
    private static final int AMPLITUDE_BITS = 14;

    /** Keeps the generators of entries apart: 2^32 divided by the golden ratio. */
    private static final int STRIDE = 0x9E3779B9;

    /** Middle of the sum of four bytes. */
    private static final int MIDDLE = 510;

    private int state = 1;

    void arm(int seed, int entry) {
        state = seed + entry * STRIDE;
        if (state == 0) {
            state = 1;
        }
    }

    /** One draw a tick, however often the channel is read. */
    void draw() {
        state ^= state << 13;
        state ^= state >>> 17;
        state ^= state << 5;
    }

    /** What the last draw adds, in steps. */
    long added(int amplitude) {
        int sum = (state & 0xFF) + (state >>> 8 & 0xFF) + (state >>> 16 & 0xFF) + (state >>> 24);
        return ((long) amplitude * (sum - MIDDLE) + (1L << (AMPLITUDE_BITS - 1))) >> AMPLITUDE_BITS;
    }
}
