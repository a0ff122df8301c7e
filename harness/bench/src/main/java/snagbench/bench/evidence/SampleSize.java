package snagbench.bench.evidence;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.OptionalInt;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import snagbench.bench.script.Claim;

/**
 * How many runs a claim needs. The classical success run: n passes in a row show a reliability R with the confidence C if
 * R<sup>n</sup> &le; 1 - C (exponent n; the form that starts from an even prior has n + 1 and is not used here). With k failures
 * allowed it is the binomial tail that must not be above 1 - C: P(at most k of n fail | R) &le; 1 - C. That is the same as
 * asking that the exact (Clopper-Pearson) lower bound be no less than R.
 */
public final class SampleSize {
    /** Where doubles come that near to equality, whole numbers decide. */
    private static final double NEARLY = 1e-10;

    private static final int MOST = 1 << 30;

    private SampleSize() {}

    /**
     * The least number of runs for a claim.
     *
     * @param claim what is to be shown
     * @return how many runs are needed if as many fail as are allowed, from 1
     * @throws ArithmeticException if it would take more than 2^30
     */
    public static int runsFor(Claim claim) {
        int tooFew = claim.failuresAllowed();
        int enough = Math.max(1, 2 * tooFew);
        while (!shows(enough, claim)) {
            if (enough >= MOST) {
                throw new ArithmeticException("more than 2^30 runs");
            }
            tooFew = enough;
            enough *= 2;
        }
        while (enough - tooFew > 1) {
            int middle = tooFew + (enough - tooFew) / 2;
            if (shows(middle, claim)) {
                enough = middle;
            } else {
                tooFew = middle;
            }
        }
        return enough;
    }

    /**
     * How many of so many runs may fail, and the claim be shown all the same. That is settled by the number of runs beforehand:
     * whoever adds runs because one has failed claims with less confidence than he says.
     *
     * @param runs how many are made, from 1
     * @param reliability above 0 and below 1
     * @param confidence from 0.5 to below 1
     * @return from 0; empty if not even all passes would show it
     */
    public static OptionalInt failuresAllowed(int runs, double reliability, double confidence) {
        int allowed = -1;
        while (allowed + 1 < runs && shows(runs, new Claim(reliability, confidence, allowed + 1))) {
            allowed++;
        }
        return allowed < 0 ? OptionalInt.empty() : OptionalInt.of(allowed);
    }

    /** Whether so many runs show a claim if as many fail as it allows. */
    static boolean shows(int runs, Claim claim) {
        if (runs <= claim.failuresAllowed()) {
            return false;
        }
        double tail =
                BinomialDistribution.of(runs, unreliability(claim)).cumulativeProbability(claim.failuresAllowed());
        double doubt = 1 - claim.confidence();
        return Math.abs(tail - doubt) > NEARLY * doubt
                ? tail < doubt
                : exactTail(runs, claim).compareTo(doubt(claim)) <= 0;
    }

    private static double unreliability(Claim claim) {
        return BigDecimal.ONE.subtract(BigDecimal.valueOf(claim.reliability())).doubleValue();
    }

    private static BigDecimal doubt(Claim claim) {
        return BigDecimal.ONE.subtract(BigDecimal.valueOf(claim.confidence()));
    }

    /** The tail in decimal fractions, without any rounding: a claim is written in them. */
    private static BigDecimal exactTail(int runs, Claim claim) {
        BigDecimal passes = BigDecimal.valueOf(claim.reliability());
        BigDecimal fails = BigDecimal.ONE.subtract(passes);
        BigDecimal sum = BigDecimal.ZERO;
        BigInteger ways = BigInteger.ONE;
        for (int failed = 0; failed <= claim.failuresAllowed(); failed++) {
            sum = sum.add(new BigDecimal(ways).multiply(fails.pow(failed)).multiply(passes.pow(runs - failed)));
            ways = ways.multiply(BigInteger.valueOf(runs - failed)).divide(BigInteger.valueOf(failed + 1L));
        }
        return sum;
    }
}
