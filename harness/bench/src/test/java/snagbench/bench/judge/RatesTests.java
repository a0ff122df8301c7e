package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import snagbench.bench.trace.SyntheticTrace;

/** Change per second over a window. Ticks are 5 ms apart; a step is a step. */
class RatesTests {
    private static final Ratio SAME = Ratio.of(BigDecimal.ONE, BigDecimal.ONE);

    private static Cells rate(long millis, Cells cells, int ticks) {
        return rate(new SyntheticTrace(ticks), millis, cells, ticks);
    }

    private static Cells rate(SyntheticTrace trace, long millis, Cells cells, int ticks) {
        return Rates.of(new Timeline(trace.trace()), cells, millis * 1000, SAME, ticks);
    }

    private static void assertIs(long least, long greatest, Cells cells, int tick) {
        assertEquals(least, cells.least(tick), "least in tick " + tick);
        assertEquals(greatest, cells.greatest(tick), "greatest in tick " + tick);
    }

    /** 3 steps in 10 ms are 300 a second; a window of 8 ms takes the tick 10 ms back as well, and divides by the 10. */
    @Test
    void itIsTheChangeSinceTheLastTickThatLiesTheWindowBack() {
        Cells cells = Spans.points(0, 1, 3, 9, 5);
        for (long millis : new long[] {8, 10}) {
            Cells rate = rate(millis, cells, 5);
            assertTrue(rate.isOpen(0));
            assertTrue(rate.isOpen(1), "no tick lies so long back");
            assertIs(300, 300, rate, 2);
            assertIs(800, 800, rate, 3);
            assertIs(200, 200, rate, 4);
            assertEquals(2, rate.firstTick());
        }
        assertIs(600, 600, rate(11, cells, 5), 3);
    }

    @Test
    void whatFallsHasANegativeRateRoundedOutwards() {
        // -1 in 15 ms is -66.6... a second.
        assertIs(-67, -66, rate(15, Spans.points(0, 0, 0, -1), 4), 3);
        assertIs(66, 67, rate(15, Spans.points(0, 0, 0, 1), 4), 3);
    }

    /** From 0..2 to 5..6: 3 at least and 6 at most in 5 ms. */
    @Test
    void spansMakeARateASpan() {
        assertIs(600, 1200, rate(5, Spans.of(Spans.span(0, 2), Spans.span(5, 6)), 2), 1);
        assertIs(-400, 200, rate(5, Spans.of(Spans.span(0, 2), Spans.span(0, 1)), 2), 1);
    }

    @Test
    void aReadingThatIsNotKnownMakesItsOwnAndALaterRateUnknown() {
        Cells rate = rate(5, Spans.of(Spans.span(0, 0), Spans.OPEN, Spans.span(3, 3), Spans.span(4, 4)), 4);

        assertTrue(rate.isOpen(1));
        assertTrue(rate.isOpen(2));
        assertIs(200, 200, rate, 3);
        assertEquals(1, rate.firstTick(), "it could have had one there");
    }

    /** Ticks 2 and 3 are lost: between 10 and 20 ms nobody knows when they were, so the change may have taken 5 ms or 15. */
    @Test
    void whereItIsNotKnownWhenTicksWereTheLongestAndTheShortestTimeCount() {
        Cells cells = Spans.points(0, 0, 0, 0, 3);
        Cells rate = rate(new SyntheticTrace(5).loseTicks(2, 3), 5, cells, 5);

        // From tick 1, at 5 ms, 15 ms back; or from tick 3, which was 5 ms back at most.
        assertIs(200, 600, rate, 4);
        Cells falling = rate(new SyntheticTrace(5).loseTicks(2, 3), 5, Spans.points(0, 0, 0, 0, -3), 5);
        assertIs(-600, -200, falling, 4);
    }

    @Test
    void noChangeIsNoRate() {
        assertIs(0, 0, rate(5, Spans.points(7, 7), 2), 1);
    }
}
