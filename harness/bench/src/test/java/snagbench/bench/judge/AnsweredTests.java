package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.trace.SyntheticTrace.FS_01;
import static snagbench.bench.trace.SyntheticTrace.FS_02;

import org.junit.jupiter.api.Test;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.trace.SyntheticTrace;

/** Whether a fail-safe reported in a tick. */
class AnsweredTests {
    private static Answered of(SyntheticTrace trace, FailSafeDescription failSafe) {
        return new Answered(new Timeline(trace.trace()), failSafe);
    }

    @Test
    void itHoldsInTheTicksOfItsReportsAndInNoOther() {
        SyntheticTrace trace =
                new SyntheticTrace(30).answered(10, 2).answered(11, 1).answered(20, 2);
        Answered answered = of(trace, FS_02);

        for (int tick = 0; tick < 30; tick++) {
            assertEquals(tick == 10 || tick == 20 ? Truth.TRUE : Truth.FALSE, answered.at(tick), "tick " + tick);
        }
        assertEquals("FS-02 answered", answered.reading(10));
        assertEquals("FS-02 silent", answered.reading(11));
        assertEquals("FS-01 answered", of(trace, FS_01).reading(11));
    }

    @Test
    void whereAnEventMayBeMissingItIsNotKnown() {
        SyntheticTrace trace = new SyntheticTrace(30)
                .answered(10, 2)
                .answered(20, 2)
                .loseTicks(8, 12)
                .loseEvent(1);
        Answered answered = of(trace, FS_02);

        assertEquals(Truth.FALSE, answered.at(7));
        assertEquals(Truth.UNKNOWN, answered.at(10));
        assertEquals("not known whether FS-02 answered", answered.reading(10));
        // The record of tick 13 tells of an event that was not seen, and it may be of that very tick.
        assertEquals(Truth.UNKNOWN, answered.at(13));
        assertEquals(Truth.FALSE, answered.at(14));
        assertEquals(Truth.TRUE, answered.at(20));
    }

    @Test
    void behindTheLastRecordItIsNotKnown() {
        assertEquals(Truth.UNKNOWN, of(new SyntheticTrace(30), FS_02).at(30));
    }
}
