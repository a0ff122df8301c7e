package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.bench.trace.Trace;

/** In whatever order ticks are asked for, the row is that which the trace's own search finds. */
class RowCursorTests {
    /** With a hole longer than it looks for by steps, and one that is shorter. */
    private static Trace holed(int period) {
        return new SyntheticTrace(400)
                .period(period)
                .loseTicks(40, 59)
                .loseTicks(100, 220)
                .trace();
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 4})
    void upAndDownAndAtRandomItFindsWhatTheSearchFinds(int period) {
        Trace trace = holed(period);
        RowCursor cursor = new RowCursor(trace);
        for (int tick = -3; tick < 410; tick++) {
            assertEquals(trace.rowAtOrAfter(tick), cursor.rowAtOrAfter(tick), "up, tick " + tick);
        }
        for (int tick = 410; tick >= -3; tick--) {
            assertEquals(trace.rowAtOrAfter(tick), cursor.rowAtOrAfter(tick), "down, tick " + tick);
        }
        long seed = 7;
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
        for (int i = 0; i < 2000; i++) {
            int tick = random.nextInt(-3, 410);
            assertEquals(trace.rowAtOrAfter(tick), cursor.rowAtOrAfter(tick), "seed " + seed + ", tick " + tick);
        }
    }

    @Test
    void ofNoRowsItIsTheFirst() {
        RowCursor cursor = new RowCursor(new SyntheticTrace(0).trace());

        assertEquals(0, cursor.rowAtOrAfter(5));
        assertEquals(0, cursor.rowAtOrAfter(0));
    }
}
