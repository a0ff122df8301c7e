package snagbench.bench.evidence;

import org.apache.commons.statistics.inference.MannWhitneyUTest;

/**
 * Whether one group of figures tends to be greater than another: the test of Mann and Whitney (Wilcoxon's rank sum), two-sided;
 * exact where no two figures are alike and both groups are below 50, else by the normal approximation with correction for ties
 * and continuity.
 *
 * @param u statistic of the first group
 * @param chance how often chance alone would give one so far out, from 0 to 1
 */
record RankSum(double u, double chance) {
    static RankSum of(double[] first, double[] second) {
        MannWhitneyUTest.Result result = MannWhitneyUTest.withDefaults().test(first, second);
        // Nothing but ties has no variance, and shows nothing.
        double chance = Double.isNaN(result.getPValue()) ? 1 : result.getPValue();
        return new RankSum(result.getStatistic(), chance);
    }
}
