package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import snagbench.bench.trace.SyntheticTrace;

/** Means over the ticks that lie less than a window back. Ticks are 5 ms apart, and a mean has steps of a tenth. */
class AveragesTests {
    private static final Ratio TENTHS = Ratio.of(BigDecimal.ONE, new BigDecimal("0.1"));

    private static Averages over(long millis, Cells cells, int ticks) {
        return new Averages(new Timeline(new SyntheticTrace(ticks).trace()), cells, millis * 1000, ticks);
    }

    private static void assertIs(long least, long greatest, Cells cells, int tick) {
        assertEquals(least, cells.least(tick), "least in tick " + tick);
        assertEquals(greatest, cells.greatest(tick), "greatest in tick " + tick);
    }

    /** 10 ms take in two ticks; 11 ms three. */
    @Test
    void aTickThatLiesJustAWindowBackIsNoneOfIt() {
        Cells cells = Spans.points(0, 10, 20, 60, 60);

        Cells two = over(10, cells, 5).mean(TENTHS);
        assertIs(0, 0, two, 0);
        assertIs(50, 50, two, 1);
        assertIs(150, 150, two, 2);
        assertIs(400, 400, two, 3);
        assertIs(600, 600, two, 4);
        Cells three = over(11, cells, 5).mean(TENTHS);
        assertIs(100, 100, three, 2);
        assertIs(300, 300, three, 3);
    }

    /** A third of 10 is 3.3 and more: between 33 and 34 tenths. */
    @Test
    void whatIsNoWholeStepLiesBetweenTwo() {
        assertIs(33, 34, over(15, Spans.points(0, 0, 10), 3).mean(TENTHS), 2);
        assertIs(-34, -33, over(15, Spans.points(0, 0, -10), 3).mean(TENTHS), 2);
    }

    @Test
    void oneReadingThatIsNotKnownOpensEveryWindowThatHasIt() {
        Cells mean = over(10, Spans.of(Spans.span(1, 1), Spans.OPEN, Spans.span(3, 5), Spans.span(7, 7)), 4)
                .mean(TENTHS);

        assertIs(10, 10, mean, 0);
        assertTrue(mean.isOpen(1));
        assertTrue(mean.isOpen(2));
        assertIs(50, 60, mean, 3);
        assertEquals(3, mean.firstTick(), "where its readings begin");
    }

    /** sqrt((9 + 16) / 2) = 3.53... and sqrt((0 + 16) / 2) = 2.82... */
    @Test
    void theRootOfTheMeanSquareIgnoresSigns() {
        assertIs(35, 36, over(10, Spans.points(3, -4), 2).rootMeanSquare(TENTHS), 1);
        assertIs(
                28,
                36,
                over(10, Spans.of(Spans.span(-3, 3), Spans.span(-4, -4)), 2).rootMeanSquare(TENTHS),
                1);
        assertIs(20, 50, over(5, Spans.of(Spans.span(2, 5)), 1).rootMeanSquare(TENTHS), 0);
        assertIs(20, 50, over(5, Spans.of(Spans.span(-5, -2)), 1).rootMeanSquare(TENTHS), 0);
        assertIs(0, 50, over(5, Spans.of(Spans.span(0, 5)), 1).rootMeanSquare(TENTHS), 0);
        assertIs(0, 50, over(5, Spans.of(Spans.span(-5, 0)), 1).rootMeanSquare(TENTHS), 0);
    }

    /** 2^31 - 1 is the greatest int32: its square has room, that of the next has none. */
    @Test
    void aReadingBeyondTheWiresIsNotSquared() {
        long greatest = Integer.MAX_VALUE;

        assertFalse(over(5, Spans.points(greatest), 1).rootMeanSquare(TENTHS).isOpen(0));
        assertFalse(over(5, Spans.points(-greatest), 1).rootMeanSquare(TENTHS).isOpen(0));
        assertTrue(over(5, Spans.points(greatest + 1), 1).rootMeanSquare(TENTHS).isOpen(0));
        assertTrue(
                over(5, Spans.points(-greatest - 1), 1).rootMeanSquare(TENTHS).isOpen(0));
    }

    /** Two of (2^31 - 1)^2 are below 2^63, three are not: a sum without room is not known rather than wrong. */
    @Test
    void aSumOfSquaresWithoutRoomIsNotKnown() {
        long greatest = Integer.MAX_VALUE;
        Cells rms =
                over(100, Spans.points(greatest, greatest, greatest, 0, 0), 5).rootMeanSquare(TENTHS);

        assertEquals(greatest * 10, rms.least(0));
        assertEquals(greatest * 10, rms.least(1));
        assertTrue(rms.isOpen(2));
        assertTrue(rms.isOpen(4), "the largest could be there that often");
    }

    /** A hundred ticks are lost, so that more than 64 may begin the window: then its readings alone bound the mean. */
    @Test
    void whereVeryManyTicksMayBeginTheWindowItsReadingsBoundIt() {
        Timeline timeline =
                new Timeline(new SyntheticTrace(130).loseTicks(10, 109).trace());
        long[] values = new long[130];
        values[50] = 7;
        values[110] = -3;
        Cells mean = new Averages(timeline, Spans.points(values), 50_000, 130).mean(TENTHS);

        assertIs(-30, 70, mean, 112);
        assertIs(0, 0, mean, 125);
    }

    /** Lost records leave it open when ticks were, and so where the window begins. */
    @Test
    void whereItIsNotKnownWhenTicksWereEveryBeginningCounts() {
        Timeline timeline = new Timeline(new SyntheticTrace(8).loseTicks(2, 4).trace());
        Cells cells = Spans.points(0, 0, 100, 100, 100, 0, 0, 0);
        Cells mean = new Averages(timeline, cells, 12_000, 8).mean(TENTHS);

        // Tick 6 was at 30 ms and tick 5 at 25. Those that were lost may all lie within the 12 ms, or none of them: the
        // mean is
        // that of ticks 5 and 6, or of 4 to 6, ..., or of 2 to 6, which is 300 / 5.
        assertIs(0, 600, mean, 6);
    }
}
