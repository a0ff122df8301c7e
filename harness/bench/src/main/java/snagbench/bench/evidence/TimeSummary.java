package snagbench.bench.evidence;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.stream.IntStream;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import snagbench.bench.script.Claim;

/**
 * A time over repeats: median, worst, and a bound below which a share of all such times lies, without supposing how they are
 * distributed. That bound is one of the times seen: the r-th shortest of n covers the share p with the confidence
 * P(fewer than r of n lie in the lowest p) = BinomialCdf(r - 1; n, p). Times that never came count as later than all others.
 *
 * @param runs how many runs were looked at
 * @param seen in how many of them the time came
 * @param medianMicros half of the runs were no later, in microseconds; of an even number the mean of the two in the middle;
 *     empty where the time did not come in half of them
 * @param worstMicros the longest that came
 * @param bound empty where the times that never came are so many that no time seen can be one
 */
public record TimeSummary(
        int runs, int seen, OptionalLong medianMicros, long worstMicros, Optional<ToleranceBound> bound) {
    /**
     * A bound that is one of the times seen.
     *
     * @param micros the time
     * @param rank the how-manieth shortest it is, from 1
     * @param share the share of all times that it is to cover
     * @param confidence with which it covers it, from 0 to 1
     * @param isEnough whether that is as much as was wanted; if not, it is the worst of all, and more repeats are needed
     */
    public record ToleranceBound(long micros, int rank, double share, double confidence, boolean isEnough) {}

    /** A summary; empty where the time never came. */
    static Optional<TimeSummary> of(List<OptionalLong> times, double share, double confidence) {
        long[] seen = times.stream()
                .filter(OptionalLong::isPresent)
                .mapToLong(OptionalLong::getAsLong)
                .sorted()
                .toArray();
        if (seen.length == 0) {
            return Optional.empty();
        }
        int runs = times.size();
        return Optional.of(new TimeSummary(
                runs, seen.length, median(seen, runs), seen[seen.length - 1], bound(seen, runs, share, confidence)));
    }

    private static OptionalLong median(long[] seen, int runs) {
        int upper = runs / 2;
        if (upper >= seen.length) {
            return OptionalLong.empty();
        }
        return OptionalLong.of(runs % 2 == 1 ? seen[upper] : seen[upper - 1] + (seen[upper] - seen[upper - 1]) / 2);
    }

    private static Optional<ToleranceBound> bound(long[] seen, int runs, double share, double confidence) {
        OptionalInt enough = IntStream.rangeClosed(1, runs)
                .filter(rank -> SampleSize.shows(runs, new Claim(share, confidence, runs - rank)))
                .findFirst();
        int rank = enough.orElse(runs);
        return rank > seen.length
                ? Optional.empty()
                : Optional.of(new ToleranceBound(
                        seen[rank - 1],
                        rank,
                        share,
                        BinomialDistribution.of(runs, share).cumulativeProbability(rank - 1),
                        enough.isPresent()));
    }

    /** Whether all runs gave the same, to the microsecond. */
    static boolean areAlike(List<OptionalLong> times) {
        return times.stream().distinct().count() <= 1;
    }
}
