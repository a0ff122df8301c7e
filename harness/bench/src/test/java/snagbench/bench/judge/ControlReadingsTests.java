package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.STEP;

import java.util.List;
import org.junit.jupiter.api.Test;
import snagbench.bench.script.Source;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.wire.StopReason;

/** What the control code had before it when it decided. */
class ControlReadingsTests {
    private static ControlReadings of(SyntheticTrace trace) {
        return new ControlReadings(trace.trace(), Scripts.rig(100));
    }

    private static SyntheticTrace trace() {
        return new SyntheticTrace(30)
                .step(10, "REACHING")
                .real(POSITION, tick -> 100 + tick)
                .told(POSITION, tick -> 50);
    }

    @Test
    void aSensorIsAsTheTickReadIt() {
        ControlReadings.Reading real = of(trace()).of(POSITION, Source.REAL);
        ControlReadings.Reading told = of(trace().on(0, 0)).of(POSITION, Source.TOLD);

        assertEquals(100, real.least(0));
        assertEquals(112, real.least(12));
        assertEquals(112, real.greatest(12));
        assertEquals(50, told.least(12));
        assertEquals(50, told.greatest(12));
    }

    /** REACHING is entered in tick 10, and found there by tick 11. */
    @Test
    void aStepIsAsTheTickBeforeLeftIt() {
        ControlReadings.Reading step = of(trace()).of(STEP, Source.REAL);

        assertEquals(0, step.greatest(10));
        assertEquals(1, step.least(11));
        assertEquals(1, step.greatest(11));
        assertTrue(step.least(0) < -1_000_000, "nothing was before the first tick");
        assertTrue(step.greatest(0) > 1_000_000);
        assertEquals(0, step.least(1));
        assertEquals(0, step.greatest(1));
    }

    @Test
    void itEndsWhereASafeStopBegins() {
        assertEquals(30, of(trace()).ticks());
        assertEquals(20, of(trace().stop(20, StopReason.LET_GO)).ticks());
        assertEquals(12 * 5000L, of(trace()).micros(12));
    }

    @Test
    void answersAreToldAndWhetherSomeMayBeMissing() {
        SyntheticTrace trace = trace().answered(12, 2).answered(15, 1).answered(20, 2);
        ControlReadings all = of(trace);
        assertEquals(
                List.of(2, 1, 2), all.answers().stream().map(one -> one.a()).toList());
        assertTrue(all.hasAllAnswers(15));

        // Events: the step is the first, so the answer of tick 15 is the third.
        ControlReadings some = of(trace().answered(12, 2)
                .answered(15, 1)
                .answered(20, 2)
                .loseTicks(14, 16)
                .loseEvent(3));
        assertEquals(2, some.answers().size());
        assertFalse(some.hasAllAnswers(15));
        assertTrue(some.hasAllAnswers(12));
    }
}
