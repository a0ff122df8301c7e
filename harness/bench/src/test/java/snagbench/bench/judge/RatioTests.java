package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import org.junit.jupiter.api.Test;

/** Rounding outward, against decimal arithmetic; and what no long can hold. */
class RatioTests {
    private static final long MOST = Long.MAX_VALUE / 2;

    private static Ratio ratio(String step, String otherStep) {
        return Ratio.of(new BigDecimal(step), new BigDecimal(otherStep));
    }

    @Test
    void roundsToTheNextWholeNumberOnEitherSide() {
        // 0.3 to 0.2 is 3 to 2.
        Ratio ratio = ratio("0.3", "0.2");
        for (int number = -12; number <= 12; number++) {
            for (int divisor = 1; divisor <= 5; divisor++) {
                BigDecimal times = BigDecimal.valueOf(3L * number);
                BigDecimal per = BigDecimal.valueOf(2L * divisor);
                String words = number + " / " + divisor;
                assertEquals(
                        times.divide(per, 0, RoundingMode.FLOOR).longValueExact(), ratio.floor(number, divisor), words);
                assertEquals(
                        times.divide(per, 0, RoundingMode.CEILING).longValueExact(),
                        ratio.ceiling(number, divisor),
                        words);
            }
        }
    }

    @Test
    void rootsRoundOutwardToo() {
        Ratio one = ratio("1", "1");
        for (int square = 0; square <= 50; square++) {
            double root = Math.sqrt(square);
            assertEquals((long) Math.floor(root), one.rootFloor(BigInteger.valueOf(square), 1), "root of " + square);
            assertEquals((long) Math.ceil(root), one.rootCeiling(BigInteger.valueOf(square), 1), "root of " + square);
        }
        // 9 / 2 lies between two squares, 8 / 2 is one.
        assertEquals(2, one.rootFloor(BigInteger.valueOf(9), 2));
        assertEquals(3, one.rootCeiling(BigInteger.valueOf(9), 2));
        assertEquals(2, one.rootCeiling(BigInteger.valueOf(8), 2));
        assertEquals(2, one.squared().times(4).rootFloor(BigInteger.ONE, 1));
    }

    @Test
    void sumsOfTwoFactorsAreRoundedOnce() {
        // Halves and thirds: 1/2 + 1/3 lies below 1, though 1/2 and 1/3 rounded up by themselves come to 2.
        Ratio.Common common = Ratio.common(ratio("1", "2"), ratio("1", "3"));
        for (int first = -7; first <= 7; first++) {
            for (int second = -7; second <= 7; second++) {
                int sixths = 3 * first + 2 * second;
                assertEquals(Math.floorDiv(sixths, 6), common.floor(first, second), first + ", " + second);
                assertEquals(-Math.floorDiv(-sixths, 6), common.ceiling(first, second), first + ", " + second);
            }
        }
    }

    @Test
    void whatNoLongCanHoldIsTheMostThatCanBeTold() {
        Ratio thousands = ratio("1000", "1");
        assertEquals(9_000_000_000_000_000_000L / 2 / 1000 * 1000, thousands.floor(4_500_000_000_000_000L, 1));
        assertEquals(MOST, thousands.floor(Long.MAX_VALUE / 10, 1));
        assertEquals(-MOST, thousands.floor(-Long.MAX_VALUE / 10, 1));
        assertEquals(MOST, thousands.ceiling(Long.MAX_VALUE / 10, 1));
        Ratio.Common sum = Ratio.common(ratio("1", "1"), ratio("1", "1"));
        assertEquals(MOST, sum.floor(MOST, 0));
        assertEquals(MOST, sum.floor(MOST, 1));
        assertEquals(-MOST, sum.ceiling(-MOST, -1));
        // Larger by the way, but not in the end.
        assertEquals(Long.MAX_VALUE / 10, thousands.floor(Long.MAX_VALUE / 10, 1000));
        assertEquals(-Long.MAX_VALUE / 10 - 1, thousands.floor(-Long.MAX_VALUE / 10 * 10 - 1, 10_000));
    }
}
