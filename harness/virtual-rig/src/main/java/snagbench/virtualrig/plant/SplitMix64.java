package snagbench.virtualrig.plant;

/**
 * The generator "SplitMix64": Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014, with
 * the mixing constants of Stafford's variant 13. It is written down here, so that a run of a given seed does not hang on
 * the JDK.
 */
public final class SplitMix64 {
    private static final long GAMMA = 0x9E3779B97F4A7C15L;
    private static final double TO_UNIT = 1.0 / (1L << 53);
    private static final int MASK_16 = 0xFFFF;

    /** Sum of four 16-bit draws: mean 4 * 65535 / 2, variance 4 * (65536^2 - 1) / 12. */
    private static final double SUM_MEAN = 2.0 * 65535;

    private static final double SUM_DEVIATION = 37837.22723720648;

    private long state;

    /**
     * Starts a sequence.
     *
     * @param seed any
     */
    public SplitMix64(long seed) {
        state = seed;
    }

    /**
     * Starts one of several sequences of the same seed, so that what draws from one does not shift the others.
     *
     * @param seed any
     * @param stream which, any
     * @return a generator of its own
     */
    public static SplitMix64 stream(int seed, int stream) {
        return new SplitMix64(mix(((long) stream << 32) | (seed & 0xFFFFFFFFL)));
    }

    /**
     * The next draw.
     *
     * @return 64 random bits
     */
    public long nextLong() {
        state += GAMMA;
        return mix(state);
    }

    /**
     * A draw from an even distribution.
     *
     * @param least lower bound
     * @param below upper bound
     * @return from least to below
     */
    public double between(double least, double below) {
        return least + (below - least) * ((nextLong() >>> 11) * TO_UNIT);
    }

    /**
     * A draw from the sum of four even distributions, which is near to a normal one and never beyond 3.465 deviations.
     * One call of {@link #nextLong()} each.
     *
     * @return mean 0, standard deviation 1
     */
    public double noise() {
        long bits = nextLong();
        long sum = (bits & MASK_16) + (bits >>> 16 & MASK_16) + (bits >>> 32 & MASK_16) + (bits >>> 48);
        return (sum - SUM_MEAN) / SUM_DEVIATION;
    }

    private static long mix(long bits) {
        long mixed = (bits ^ bits >>> 30) * 0xBF58476D1CE4E5B9L;
        mixed = (mixed ^ mixed >>> 27) * 0x94D049BB133111EBL;
        return mixed ^ mixed >>> 31;
    }
}
