package snagbench.bench.serve;

import java.util.Random;

/**
 * Strikes a share of the times that it is asked. It draws the distance to the next strike (geometric distribution), so that
 * asking costs a count alone. {@link Random}, since its sequence is laid down for every JDK.
 */
final class Chance {
    /** 2^64 over the golden ratio, odd: neighbouring seeds and streams start far from each other. */
    private static final long SPREAD = 0x9E3779B97F4A7C15L;

    private final Random random;
    private final double logOfMissing;
    private long before;

    /**
     * One of several sequences of the same seed.
     *
     * @param share from 0 to below 1
     * @param seed any
     * @param stream which
     */
    Chance(double share, long seed, int stream) {
        random = random(seed, stream);
        logOfMissing = StrictMath.log1p(-share);
        before = distance();
    }

    static Random random(long seed, int stream) {
        return new Random((seed * SPREAD + stream) * SPREAD);
    }

    boolean strikes() {
        if (before > 0) {
            before--;
            return false;
        }
        before = distance();
        return true;
    }

    /** A draw of the same sequence, for how it strikes. */
    int below(int bound) {
        return random.nextInt(bound);
    }

    private long distance() {
        if (logOfMissing == 0) {
            return Long.MAX_VALUE;
        }
        // 1 - u lies in (0, 1]: its logarithm is finite.
        return (long) (StrictMath.log(1 - random.nextDouble()) / logOfMissing);
    }
}
