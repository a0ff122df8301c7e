package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.judge.Scripts.place;
import static snagbench.bench.judge.Spans.OPEN;
import static snagbench.bench.judge.Spans.span;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Condition.Moves;
import snagbench.bench.script.Source;

/** |x(k) - x(k - n)| against a value: its truth, its distance from the limit, and how it reads. Positions are in 0.1 mm. */
class MovedTests {
    private static Moved moved(boolean more, int limit, int ticks, Cells cells) {
        return new Moved(new Moves(place(9), POSITION, Source.REAL, more, limit, ticks), cells);
    }

    /** From 10 to 17 in two ticks, or back, is 7. */
    @ParameterizedTest
    @CsvSource({
        "10, 17, true, 6, TRUE, 1",
        "10, 17, true, 7, FALSE, 0",
        "10, 17, true, 8, FALSE, -1",
        "17, 10, true, 6, TRUE, 1",
        "17, 10, true, 7, FALSE, 0",
        "10, 17, false, 8, TRUE, 1",
        "10, 17, false, 7, FALSE, 0",
        "10, 17, false, 6, FALSE, -1",
        "17, 10, false, 8, TRUE, 1",
        "10, 10, true, 0, FALSE, 0",
        "10, 10, false, 1, TRUE, 1"
    })
    void theSizeOfTheChangeIsHeldAgainstTheValue(
            long before, long now, boolean more, int limit, String truth, long distance) {
        Moved moved = moved(more, limit, 2, Spans.points(before, 999, now));

        assertEquals(truth.equals("TRUE") ? Truth.TRUE : Truth.FALSE, moved.at(2));
        Slack slack = moved.slack().orElseThrow();
        assertEquals(distance, slack.least(2));
        assertEquals(distance, slack.greatest(2));
    }

    /** From 10 to 12, to 15 to 20: changed by 3 at least and by 10 at most. */
    @Test
    void whereReadingsAreSpansTheChangeIsOneToo() {
        Cells cells = Spans.of(span(10, 12), span(15, 20));

        assertEquals(Truth.TRUE, moved(true, 2, 1, cells).at(1));
        assertEquals(Truth.UNKNOWN, moved(true, 3, 1, cells).at(1));
        assertEquals(Truth.UNKNOWN, moved(true, 9, 1, cells).at(1));
        assertEquals(Truth.FALSE, moved(true, 10, 1, cells).at(1));
        Slack more = moved(true, 4, 1, cells).slack().orElseThrow();
        assertEquals(3 - 4, more.least(1));
        assertEquals(10 - 4, more.greatest(1));
        Slack less = moved(false, 4, 1, cells).slack().orElseThrow();
        assertEquals(4 - 10, less.least(1));
        assertEquals(4 - 3, less.greatest(1));
        assertEquals("0.3 mm", more.value(1, true));
        assertEquals("1.0 mm", more.value(1, false));
        assertEquals("1.0 mm", less.value(1, true));
        assertEquals("0.3 mm", less.value(1, false));
    }

    /** Spans that overlap may be one and the same reading. */
    @ParameterizedTest
    @CsvSource({"10, 12, 12, 20, 0, 10", "12, 20, 10, 12, 0, 10", "10, 12, 13, 20, 1, 10", "13, 20, 10, 12, 1, 10"})
    void whatMayNotHaveMovedIsNoDistanceApart(
            long least, long greatest, long nextLeast, long nextGreatest, long nearest, long furthest) {
        Slack slack = moved(true, 0, 1, Spans.of(span(least, greatest), span(nextLeast, nextGreatest)))
                .slack()
                .orElseThrow();

        assertEquals(nearest, slack.least(1));
        assertEquals(furthest, slack.greatest(1));
    }

    @Test
    void beforeSoManyTicksItDoesNotHoldAndHasNoDistance() {
        Moved moved = moved(false, 100, 2, Spans.points(1, 2, 3));

        assertEquals(Truth.FALSE, moved.at(0));
        assertEquals(Truth.FALSE, moved.at(1));
        assertEquals(Truth.TRUE, moved.at(2));
        Slack slack = moved.slack().orElseThrow();
        assertTrue(slack.isOpen(1));
        assertFalse(slack.isOpen(2));
    }

    @Test
    void whereAReadingIsNotKnownThereIsNoDistance() {
        Slack slack = moved(true, 5, 1, Spans.of(span(1, 1), OPEN, span(3, 3), span(4, 4)))
                .slack()
                .orElseThrow();

        assertTrue(slack.isOpen(1), "the reading itself");
        assertTrue(slack.isOpen(2), "the one before it");
        assertFalse(slack.isOpen(3));
    }

    @Test
    void itReadsAsWhatItMovedWhereThatIsKnown() {
        Cells cells = Spans.of(span(10, 10), span(17, 17), span(20, 25), span(22, 22), OPEN);

        assertEquals("reach.position 1.0 mm", moved(true, 5, 1, cells).reading(0));
        assertEquals(
                "reach.position moved 0.7 mm in 1 tick",
                moved(true, 5, 1, cells).reading(1));
        assertEquals(
                "reach.position moved 1.2 mm in 3 ticks",
                moved(true, 5, 3, cells).reading(3));
        assertEquals("reach.position 2.2 mm", moved(true, 5, 1, cells).reading(3), "from a span");
        assertEquals("reach.position not known", moved(true, 5, 1, cells).reading(4));
        assertEquals(
                "reach.position in 1 tick",
                moved(true, 5, 1, cells).slack().orElseThrow().name());
        assertEquals(
                "reach.position in 2 ticks",
                moved(true, 5, 2, cells).slack().orElseThrow().name());
    }

    @Test
    void itBeginsWithItsReadings() {
        assertEquals(3, moved(true, 5, 1, Spans.points(1)).firstTick());
    }
}
