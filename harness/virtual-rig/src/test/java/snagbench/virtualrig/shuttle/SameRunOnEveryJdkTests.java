package snagbench.virtualrig.shuttle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import snagbench.wire.EventKind;
import snagbench.wire.Record;

/** A whole run with a jam and a shove in it, folded into one number. */
class SameRunOnEveryJdkTests {
    private static final long FACTOR = 0x9E3779B97F4A7C15L;

    /**
     * Kept from a first run on JDK 17. Who changes the plant or the control code on purpose puts in what this test then
     * finds, and looks that it is the same on the newer JDK.
     */
    @Test
    void hasTheSameReadingsToTheLastBit() {
        TestBench bench = TestBench.ready("standard");
        int armed = bench.arm(
                7,
                Programs.NO_GUARDS,
                Programs.startRun(),
                Programs.forceFor(1, TestBench.channel("jam.position"), 500, 9_000_000),
                Programs.inStep(1, 5),
                Programs.forceFor(2, TestBench.channel("base.push"), -600, 900_000),
                Programs.inStep(2, 10));
        assertTrue(bench.runUntilStep(WholeMachine.PARKED, 30_000_000));
        int start = bench.since(armed, EventKind.ARMED).get(0).micros;
        long folded = 0;
        for (Record record : bench.recordsSince(armed)) {
            folded = fold(folded, record.micros - start);
            for (int i = 0; i < record.count(); i++) {
                folded = fold(folded, record.real(i));
                folded = fold(folded, record.told(i));
            }
        }
        assertTrue(bench.answersSince(armed).containsAll(java.util.List.of(6, 7)), "jam and shove were answered");
        assertEquals("964b4e7c6fb1d4da", Long.toHexString(folded));
    }

    private static long fold(long folded, long bits) {
        return (Long.rotateLeft(folded, 7) ^ bits) * FACTOR;
    }
}
