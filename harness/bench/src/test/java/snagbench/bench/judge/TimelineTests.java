package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.wire.EventKind;
import snagbench.wire.StopReason;

/** What counts of a trace, and when its ticks were. Ticks are 5 ms apart. */
class TimelineTests {
    private static Timeline of(SyntheticTrace trace) {
        return new Timeline(trace.trace());
    }

    @Test
    void withoutAStopAllOfItCounts() {
        Timeline timeline = of(new SyntheticTrace(30).answered(12, 1));

        assertFalse(timeline.wasStopped());
        assertEquals(29, timeline.lastTick());
        assertEquals(29 * 5000L, timeline.seenThroughMicros());
        assertEquals(1, timeline.events().size());
    }

    /** The tick of the stop itself counts no more, and no time from its start on. */
    @Test
    void fromASafeStopOnNothingCounts() {
        Timeline timeline =
                of(new SyntheticTrace(30).answered(19, 1).answered(20, 2).stop(20, StopReason.LET_GO));

        assertTrue(timeline.wasStopped());
        assertEquals(19, timeline.lastTick());
        assertEquals(20 * 5000L - 1, timeline.seenThroughMicros());
        assertEquals(1, timeline.events().size());
        assertEquals(19, timeline.events().get(0).tick());
    }

    /** The event of a stop that has run to its end carries another figure, and cuts nothing off. */
    @Test
    void thatAStopHasEndedIsNoStop() {
        assertFalse(of(new SyntheticTrace(30).event(20, EventKind.STOP, StopReason.LET_GO.code(), 1))
                .wasStopped());
    }

    @Test
    void whereTheRecordOfTheStopIsLostItIsSeenOnlyUpToTheLastBeforeIt() {
        Timeline timeline =
                of(new SyntheticTrace(30).stop(20, StopReason.LET_GO).loseTicks(18, 20));

        assertEquals(17, timeline.lastTick());
        assertEquals(17 * 5000L, timeline.seenThroughMicros());
    }

    @Test
    void aTraceOfNothingHasNoTick() {
        Timeline timeline = of(new SyntheticTrace(0));

        assertEquals(-1, timeline.lastTick());
        assertEquals(-1, timeline.lastKnownTick());
        assertEquals(-1, timeline.seenThroughMicros());
        assertFalse(timeline.hasAllEvents(0, 0));
    }

    @Test
    void aStopInTheFirstTickLeavesNothing() {
        Timeline timeline = of(new SyntheticTrace(30).stop(0, StopReason.GUARD));

        assertEquals(-1, timeline.lastTick());
        assertEquals(-1, timeline.seenThroughMicros());
    }

    /** An event is sent before the record of its tick, so that there may be one without the other. */
    @Test
    void anEventBehindTheLastRecordIsKnownToo() {
        Timeline timeline = of(new SyntheticTrace(30).answered(29, 1).loseTicks(28, 29));

        assertEquals(27, timeline.lastTick());
        assertEquals(29, timeline.lastKnownTick());
    }

    @Test
    void anEventMayBeMissingWhereTheCountsSaySo() {
        Timeline timeline =
                of(new SyntheticTrace(30).answered(10, 1).answered(20, 1).loseEvent(1));

        assertTrue(timeline.hasAllEvents(0, 9));
        assertFalse(timeline.hasAllEvents(10, 10));
        assertFalse(timeline.hasAllEvents(0, 29));
        assertTrue(timeline.hasAllEvents(11, 29));
        assertTrue(timeline.hasAllEvents(12, 11), "of no tick none is missing");
        assertTrue(timeline.hasAllEvents(-5, 9));
        assertFalse(timeline.hasAllEvents(29, 30), "behind what was seen");
    }

    /** Between 45 and 65 ms three ticks are lost: at least a microsecond apart. */
    @Test
    void ofALostTickOnlyBoundsOfItsTimeAreKnown() {
        Timeline timeline = of(new SyntheticTrace(30).loseTicks(10, 12));

        assertEquals(45_000, timeline.earliest(9));
        assertEquals(45_000, timeline.latest(9));
        assertEquals(45_001, timeline.earliest(10));
        assertEquals(64_997, timeline.latest(10));
        assertEquals(45_003, timeline.earliest(12));
        assertEquals(64_999, timeline.latest(12));
        assertEquals(65_000, timeline.earliest(13));
    }

    @Test
    void whatItsEventSaysOfALostTickIsKnown() {
        Timeline timeline = of(new SyntheticTrace(30).answered(11, 1).loseTicks(10, 12));

        assertEquals(55_000, timeline.earliest(11));
        assertEquals(55_000, timeline.latest(11));
        assertEquals(54_999, timeline.latest(10));
        assertEquals(55_001, timeline.earliest(12));
    }

    @Test
    void outsideOfTheTraceTimesAreAsGoodAsNotKnown() {
        Timeline timeline = of(new SyntheticTrace(30));

        assertEquals(29 * 5000L + 2, timeline.earliest(31));
        assertEquals(Timeline.NEVER, timeline.latest(30));
        assertEquals(0, timeline.earliest(-3));
        assertEquals(0, timeline.latest(-3));
    }
}
