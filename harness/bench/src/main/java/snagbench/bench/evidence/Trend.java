package snagbench.bench.evidence;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.IntStream;

/**
 * Whether something hangs on the order of the repeats, which it must not: then they are not independent, and no count of them
 * shows what it seems to.
 *
 * @param chance how often mere chance would give an order so uneven, from 0 to 1
 * @param towardsTheEnd true if the failures, or the longer times, stand rather at the end
 */
public record Trend(double chance, boolean towardsTheEnd) {
    /** A plan has many scripts and each is looked at more than once, so that 1 in 20 would warn too often. */
    public static final double SUSPICIOUS_BELOW = 0.01;

    /** Fewer in a half cannot come below that. */
    private static final int LEAST_IN_A_HALF = 5;

    /**
     * Tells whether it is more than chance would account for.
     *
     * @return true below {@link #SUSPICIOUS_BELOW}
     */
    public boolean isSuspicious() {
        return chance < SUSPICIOUS_BELOW;
    }

    /** The places in the order of those that passed against the places of the others; empty where all came to the same. */
    static Optional<Trend> ofPasses(List<Boolean> passed) {
        double[] good = places(passed, true);
        double[] bad = places(passed, false);
        if (good.length == 0 || bad.length == 0) {
            return Optional.empty();
        }
        RankSum sum = RankSum.of(bad, good);
        return Optional.of(new Trend(sum.chance(), sum.u() * 2 > (double) good.length * bad.length));
    }

    /** The times of the later half against those of the earlier; a time that never came is later than all others. */
    static Optional<Trend> ofTimes(List<OptionalLong> times) {
        int half = times.size() / 2;
        if (half < LEAST_IN_A_HALF) {
            return Optional.empty();
        }
        double[] early = figures(times.subList(0, half));
        double[] late = figures(times.subList(times.size() - half, times.size()));
        RankSum sum = RankSum.of(late, early);
        return Optional.of(new Trend(sum.chance(), sum.u() * 2 > (double) half * half));
    }

    private static double[] places(List<Boolean> passed, boolean which) {
        return IntStream.range(0, passed.size())
                .filter(i -> passed.get(i) == which)
                .asDoubleStream()
                .toArray();
    }

    private static double[] figures(List<OptionalLong> times) {
        return times.stream()
                .mapToDouble(time -> time.isPresent() ? time.getAsLong() : Double.MAX_VALUE)
                .toArray();
    }
}
