package snagbench.bench.evidence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.OptionalInt;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Claim;

class SampleSizeTests {
    private static final double[] RELIABILITIES = {0.80, 0.90, 0.95, 0.98, 0.99, 0.995, 0.999, 0.9999};

    /** n = ceil(ln(1 - C) / ln R), the formula from memory; the table made anew with whole numbers and fractions. 598 and 2995 at
     * 95 % are also to be read in published tables. */
    @ParameterizedTest
    @CsvSource({
        "0.50, 4, 7, 14, 35, 69, 139, 693, 6932",
        "0.60, 5, 9, 18, 46, 92, 183, 916, 9163",
        "0.80, 8, 16, 32, 80, 161, 322, 1609, 16094",
        "0.90, 11, 22, 45, 114, 230, 460, 2302, 23025",
        "0.95, 14, 29, 59, 149, 299, 598, 2995, 29956",
        "0.99, 21, 44, 90, 228, 459, 919, 4603, 46050"
    })
    void aRunOfSuccessesIsAsLongAsTheTableSays(
            double confidence, int r80, int r90, int r95, int r98, int r99, int r995, int r999, int r9999) {
        int[] wanted = {r80, r90, r95, r98, r99, r995, r999, r9999};
        for (int i = 0; i < wanted.length; i++) {
            Claim claim = new Claim(RELIABILITIES[i], confidence, 0);
            assertEquals(wanted[i], SampleSize.runsFor(claim), () -> "runs for " + claim);
        }
    }

    /** Smallest n for 0 to 3 failures, made anew from the exact binomial tail. */
    @ParameterizedTest
    @CsvSource({
        "0.90, 0.90, 22, 38, 52, 65",
        "0.90, 0.95, 29, 46, 61, 76",
        "0.90, 0.99, 44, 64, 81, 97",
        "0.95, 0.90, 45, 77, 105, 132",
        "0.95, 0.95, 59, 93, 124, 153",
        "0.95, 0.99, 90, 130, 165, 198",
        "0.99, 0.90, 230, 388, 531, 667",
        "0.99, 0.95, 299, 473, 628, 773",
        "0.99, 0.99, 459, 662, 838, 1001"
    })
    void failuresThatAreAllowedCostRuns(double reliability, double confidence, int n0, int n1, int n2, int n3) {
        int[] wanted = {n0, n1, n2, n3};
        for (int failures = 0; failures < wanted.length; failures++) {
            assertEquals(wanted[failures], SampleSize.runsFor(new Claim(reliability, confidence, failures)));
            assertEquals(
                    OptionalInt.of(failures),
                    SampleSize.failuresAllowed(wanted[failures], reliability, confidence),
                    "failures allowed in " + wanted[failures]);
        }
        assertEquals(OptionalInt.empty(), SampleSize.failuresAllowed(n0 - 1, reliability, confidence));
    }

    @Test
    void aTieIsSettledWithoutRounding() {
        // 0.2^3 = 0.008 and 0.3^4 = 0.0081 exactly; in binary fractions they may come out on either side.
        assertEquals(1, SampleSize.runsFor(new Claim(0.5, 0.5, 0)));
        assertEquals(2, SampleSize.runsFor(new Claim(0.5, 0.75, 0)));
        assertEquals(3, SampleSize.runsFor(new Claim(0.2, 0.992, 0)));
        assertEquals(4, SampleSize.runsFor(new Claim(0.3, 0.9919, 0)));
    }

    /** With R = 1/2 the tail of n with f failures allowed is the sum of the binomial coefficients to f over 2^n: whole numbers. */
    @ParameterizedTest
    @CsvSource({
        "0.5, 0.5, 1, 3", // (1 + 3) / 8
        "0.5, 0.6875, 1, 4", // (1 + 4) / 16
        "0.5, 0.5, 2, 5", // (1 + 5 + 10) / 32
        "0.5, 0.65625, 2, 6", // (1 + 6 + 15) / 64
        "0.5, 0.5, 3, 7", // (1 + 7 + 21 + 35) / 128
        "0.2, 0.64, 1, 2", // 0.2^2 + 2 * 0.2 * 0.8
        "0.3, 0.784, 1, 3" // 0.3^3 + 3 * 0.3^2 * 0.7
    })
    void aTieWithFailuresAllowedIsEnoughAndALittleMoreConfidenceIsNot(
            double reliability, double confidence, int failures, int runs) {
        assertEquals(runs, SampleSize.runsFor(new Claim(reliability, confidence, failures)));
        double more = confidence + 1e-13;
        assertEquals(runs + 1, SampleSize.runsFor(new Claim(reliability, more, failures)));
    }

    @Test
    void asManyRunsAsMayFailShowNothing() {
        Claim claim = new Claim(0.9, 0.5, 3);
        assertFalse(SampleSize.shows(0, claim));
        assertFalse(SampleSize.shows(2, claim));
        assertFalse(SampleSize.shows(3, claim));
    }

    /** The tail as a fraction of whole numbers, with nothing of the library or of the code in it. */
    @Test
    void theLeastNumberIsEnoughAndOneLessIsNot() {
        long seed = 41;
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
        for (int i = 0; i < 300; i++) {
            int reliability = random.nextInt(50, 98);
            int confidence = random.nextInt(50, 100);
            int failures = random.nextInt(0, 5);
            int runs = SampleSize.runsFor(new Claim(reliability / 100.0, confidence / 100.0, failures));
            String which = "seed " + seed + ", case " + i + ": " + reliability + "/" + confidence + "/" + failures;
            assertTrue(plainlyShows(runs, failures, reliability, confidence), which);
            assertFalse(plainlyShows(runs - 1, failures, reliability, confidence), which);
        }
    }

    private static boolean plainlyShows(int runs, int failures, int reliability, int confidence) {
        if (runs <= failures) {
            return false;
        }
        BigInteger sum = BigInteger.ZERO;
        for (int failed = 0; failed <= failures; failed++) {
            BigInteger ways = BigInteger.ONE;
            for (int i = 0; i < failed; i++) {
                ways = ways.multiply(BigInteger.valueOf(runs - i)).divide(BigInteger.valueOf(i + 1));
            }
            sum = sum.add(ways.multiply(BigInteger.valueOf(100 - reliability).pow(failed))
                    .multiply(BigInteger.valueOf(reliability).pow(runs - failed)));
        }
        BigDecimal tail = new BigDecimal(sum).movePointLeft(2 * runs);
        return tail.compareTo(BigDecimal.valueOf(100 - confidence, 2)) <= 0;
    }

    @Test
    void whatNoNumberOfRunsShowsIsSaid() {
        Claim claim = new Claim(0.9999999999, 0.99, 0);
        assertThrows(ArithmeticException.class, () -> SampleSize.runsFor(claim));
    }

    @ParameterizedTest
    @CsvSource({"0, 0.9, 0", "1, 0.9, 0", "0.9, 1, 0", "0.9, 0.4, 0", "0.9, 0.9, -1", "NaN, 0.9, 0", "0.9, NaN, 0"})
    void aClaimThatNobodyCanMakeIsNone(double reliability, double confidence, int failures) {
        assertThrows(IllegalArgumentException.class, () -> new Claim(reliability, confidence, failures));
    }
}
