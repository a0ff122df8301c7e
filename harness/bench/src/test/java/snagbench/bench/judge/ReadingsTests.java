package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.STEP;

import org.junit.jupiter.api.Test;
import snagbench.bench.script.Source;
import snagbench.bench.trace.SyntheticTrace;

/** What channels read, in words. A step of the position is 0.1 mm. */
class ReadingsTests {
    @Test
    void aReadingIsAPointASpanOrNotKnown() {
        Cells cells = Spans.of(Spans.span(12, 12), Spans.span(12, 15), Spans.OPEN);

        assertEquals("x 1.2 mm", Readings.of(POSITION, "x", cells, 0));
        assertEquals("x 1.2 mm to 1.5 mm", Readings.of(POSITION, "x", cells, 1));
        assertEquals("x not known", Readings.of(POSITION, "x", cells, 2));
    }

    /** A derived channel may go beyond what the wire carries: 2^31 steps. */
    @Test
    void aFigureBeyondTheWireIsShownToo() {
        assertEquals("214748364.7 mm", Readings.show(POSITION, Integer.MAX_VALUE));
        assertEquals("214748364.8 mm", Readings.show(POSITION, Integer.MAX_VALUE + 1L));
        assertEquals("-214748364.9 mm", Readings.show(POSITION, Integer.MIN_VALUE - 1L));
        assertEquals("4294967296", Readings.show(Scripts.quantity(0, "count", "", 1, 0), 1L << 32));
    }

    @Test
    void whatTheCodeWasToldIsSaid() {
        assertEquals("reach.position", Readings.name(POSITION, Source.REAL));
        assertEquals("reach.position (told)", Readings.name(POSITION, Source.TOLD));
    }

    @Test
    void theStepOfATickIsThatOfItsRecord() {
        SyntheticTrace trace = new SyntheticTrace(20).step(10, "REACHING").loseTicks(12, 12);

        assertEquals(STEP.name() + " READY", Readings.step(trace.trace(), 9));
        assertEquals(STEP.name() + " REACHING", Readings.step(trace.trace(), 10));
        assertEquals("", Readings.step(trace.trace(), 12), "its record is lost");
        assertEquals("", Readings.step(trace.trace(), 20), "behind the last");
    }

    @Test
    void aRecordThatLacksThePartWithTheStepTellsNone() {
        SyntheticTrace trace = new SyntheticTrace(20).split(2).losePart(10);

        assertEquals(STEP.name() + " READY", Readings.step(trace.trace(), 9));
    }
}
