package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.wire.EventKind;

/** What the step was in each tick. READY is 0, REACHING 1, DRAWING_BACK 2; events are numbered from 1. */
class StateValuesTests {
    private static final OptionalInt UNKNOWN = OptionalInt.empty();
    private static final OptionalInt READY = OptionalInt.of(0);
    private static final OptionalInt REACHING = OptionalInt.of(1);
    private static final OptionalInt DRAWING_BACK = OptionalInt.of(2);

    private static StateValues of(SyntheticTrace trace) {
        return new StateValues(new Timeline(trace.trace()), 0);
    }

    private static SyntheticTrace steps() {
        return new SyntheticTrace(40).step(10, "REACHING").step(20, "DRAWING_BACK");
    }

    @Test
    void withEveryRecordItIsWhatTheRecordSays() {
        StateValues values = of(steps());

        assertEquals(READY, values.at(9));
        assertEquals(REACHING, values.at(10));
        assertEquals(REACHING, values.at(19));
        assertEquals(DRAWING_BACK, values.at(20));
        assertEquals(DRAWING_BACK, values.at(39));
    }

    @Test
    void whereRecordsAreLostEventsTell() {
        StateValues values = of(steps().loseTicks(8, 22));

        assertEquals(READY, values.at(8));
        assertEquals(READY, values.at(9));
        assertEquals(REACHING, values.at(10));
        assertEquals(REACHING, values.at(19));
        assertEquals(DRAWING_BACK, values.at(20));
        assertEquals(DRAWING_BACK, values.at(22));
    }

    @Test
    void betweenRecordsOfMoreTicksEventsTellToo() {
        StateValues values = of(steps().period(4));

        assertEquals(READY, values.at(9));
        assertEquals(REACHING, values.at(10));
        assertEquals(REACHING, values.at(19));
        assertEquals(DRAWING_BACK, values.at(20));
    }

    /** The step entered in tick 10 is not heard of; the record of tick 12 shows it, and nobody knows since when. */
    @Test
    void whereAnEventIsLostAsWellItIsNotKnownUpToTheNextRecord() {
        StateValues values = of(steps().loseTicks(8, 11).loseEvent(1));

        assertEquals(READY, values.at(7));
        for (int tick = 8; tick <= 11; tick++) {
            assertEquals(UNKNOWN, values.at(tick), "tick " + tick);
        }
        assertEquals(REACHING, values.at(12));
    }

    /** An event's own tick may have had another behind it, but what was before a change that was seen is carried to it. */
    @Test
    void behindAChangeThatWasSeenOneThatWasLostLeavesItOpen() {
        SyntheticTrace trace = new SyntheticTrace(40)
                .step(10, "REACHING")
                .step(14, "DRAWING_BACK")
                .loseTicks(9, 20)
                .loseEvent(2);
        StateValues values = of(trace);

        assertEquals(READY, values.at(9));
        assertEquals(UNKNOWN, values.at(15));
        assertEquals(UNKNOWN, values.at(20));
        assertEquals(DRAWING_BACK, values.at(21));
    }

    @Test
    void beforeTheFirstRecordItIsWhatThatSaysUnlessItChangedInItsTick() {
        assertEquals(
                READY,
                of(new SyntheticTrace(40).step(10, "REACHING").loseTicks(0, 4)).at(0));
        assertEquals(
                READY,
                of(new SyntheticTrace(40).step(10, "REACHING").loseTicks(0, 4)).at(4));
        StateValues changed = of(new SyntheticTrace(40).step(5, "REACHING").loseTicks(0, 4));
        assertEquals(UNKNOWN, changed.at(4));
        assertEquals(REACHING, changed.at(5));
        StateValues changedOneLater =
                of(new SyntheticTrace(40).step(6, "REACHING").loseTicks(0, 4));
        assertEquals(READY, changedOneLater.at(4));
    }

    @Test
    void ofTwoChangesInATickTheLastIsWhatItWas() {
        SyntheticTrace trace = new SyntheticTrace(40)
                .step(10, "REACHING")
                .step(10, "DRAWING_BACK")
                .loseTicks(10, 12);
        StateValues values = of(trace);

        assertEquals(DRAWING_BACK, values.at(10));
        assertTrue(values.entersAt(10, 1));
        assertTrue(values.entersAt(10, 2));
        assertFalse(values.entersAt(10, 0));
        assertFalse(values.entersAt(9, 1));
        assertFalse(values.entersAt(11, 2));
    }

    @Test
    void changesOfOtherChannelsAreNotItsOwn() {
        SyntheticTrace trace =
                new SyntheticTrace(40).event(10, EventKind.STATE, 2, 1).loseTicks(9, 12);

        assertEquals(READY, of(trace).at(11));
        assertFalse(of(trace).entersAt(10, 1));
    }

    @Test
    void behindTheLastRecordItIsNotKnown() {
        assertEquals(UNKNOWN, of(steps()).at(40));
    }
}
