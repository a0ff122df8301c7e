package snagbench.bench.evidence;

import org.apache.commons.statistics.distribution.BetaDistribution;
import org.apache.commons.statistics.interval.BinomialConfidenceInterval;
import org.apache.commons.statistics.interval.Interval;

/**
 * What k passes of n runs say about the share of all runs that would pass: the exact bounds of Clopper and Pearson. They hold
 * their confidence whatever the true share is, and more often than not exceed it. All runs counted must be independent of each
 * other and alike; that is for the one who repeats to see to.
 *
 * @param passes how many runs passed, from 0 to the number of runs
 * @param runs how many were made, from 1
 * @param confidence chance that the lower bound is no higher than the true share, above 0 and below 1
 * @param lower the one-sided lower bound, from 0 to below 1
 * @param intervalLower lower end of the two-sided interval of the same confidence
 * @param intervalUpper upper end of it
 */
public record Bound(int passes, int runs, double confidence, double lower, double intervalLower, double intervalUpper) {
    /**
     * The bounds.
     *
     * @param passes how many runs passed, from 0 to the number of runs
     * @param runs how many were made, from 1
     * @param confidence above 0 and below 1
     * @return one-sided and two-sided bounds
     * @throws IllegalArgumentException if a figure is out of its range
     */
    public static Bound of(int passes, int runs, double confidence) {
        if (runs < 1 || passes < 0 || passes > runs) {
            throw new IllegalArgumentException(passes + " of " + runs);
        }
        Interval both = BinomialConfidenceInterval.CLOPPER_PEARSON.fromErrorRate(runs, passes, 1 - confidence);
        return new Bound(
                passes, runs, confidence, lower(passes, runs, confidence), both.getLowerBound(), both.getUpperBound());
    }

    /** The quantile 1 - C of a beta distribution; without a pass there is none, and with nothing but passes it is (1 - C)^(1/n). */
    private static double lower(int passes, int runs, double confidence) {
        if (passes == 0) {
            return 0;
        }
        if (passes == runs) {
            return StrictMath.pow(1 - confidence, 1.0 / runs);
        }
        return BetaDistribution.of(passes, runs - passes + 1.0).inverseCumulativeProbability(1 - confidence);
    }
}
