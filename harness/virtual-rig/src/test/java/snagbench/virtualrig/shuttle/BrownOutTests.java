package snagbench.virtualrig.shuttle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import snagbench.wire.Arm;
import snagbench.wire.Do;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.Hello;
import snagbench.wire.Record;
import snagbench.wire.Refusal;
import snagbench.wire.ResetCause;

/** A worn battery and a blocked arm: the stall pulls the supply below the controller's brown-out level. */
class BrownOutTests {
    private static TestBench stalled(int seed) {
        TestBench bench = TestBench.ready("weak-battery");
        bench.arm(
                seed,
                Programs.NO_GUARDS,
                Programs.startRun(),
                Programs.force(1, EntryKind.STUCK_AT, TestBench.OBSTACLE, 2200),
                Programs.inStep(1, 2));
        return bench;
    }

    @Test
    void restartsTheControllerAndSaysWhy() {
        for (int seed = 1; seed <= 20; seed++) {
            TestBench bench = stalled(seed);
            Hello first = bench.hello();
            int greetings = bench.hellos.size();
            assertEquals(ResetCause.POWER_ON.code(), first.cause);
            assertTrue(bench.runUntil(() -> bench.hellos.size() > greetings, 3_000_000), "seed " + seed);
            Hello again = bench.hello();
            assertEquals(ResetCause.BROWN_OUT.code(), again.cause, "seed " + seed);
            assertNotEquals(first.boot, again.boot, "seed " + seed);
            assertEquals(0, again.session);
            assertEquals(first.digest, again.digest);
            assertEquals(List.of(), bench.answersSince(0), "the restart comes before FS-02 could answer");
            int least = bench.records.stream()
                    .mapToInt(one -> one.real(TestBench.VOLTAGE))
                    .min()
                    .orElseThrow();
            assertTrue(least >= 690, "no tick is seen below 7 V, but " + least);
        }
    }

    @Test
    void comesBackStillAndStaysSo() {
        TestBench bench = stalled(1);
        int greetings = bench.hellos.size();
        assertTrue(bench.runUntil(() -> bench.hellos.size() > greetings, 3_000_000));
        bench.loseLease();
        int before = bench.records.size();
        bench.open();
        bench.run(2_000_000);
        List<Record> after = bench.records.subList(before, bench.records.size());
        assertTrue(after.size() > 300);
        int stands = after.get(0).real(TestBench.POSITION);
        assertTrue(stands > 2100 && stands <= 2200, "stands at " + stands);
        for (Record one : after) {
            assertEquals(0, one.told(TestBench.STEP));
            assertEquals(0, one.told(TestBench.COMMAND));
            assertEquals(stands, one.real(TestBench.POSITION));
            assertTrue(one.real(TestBench.VOLTAGE) > 1100);
        }
        // Its clock began anew, and it counts its ticks from the start.
        assertTrue(after.get(0).micros >= 0 && after.get(0).micros < 100_000, "clock " + after.get(0).micros);
        assertTrue(after.get(0).tick < 20);
    }

    @Test
    void refusesWhatWasAskedBeforeTheRestart() {
        TestBench bench = stalled(1);
        Hello first = bench.hello();
        int greetings = bench.hellos.size();
        assertTrue(bench.runUntil(() -> bench.hellos.size() > greetings, 3_000_000));
        bench.loseLease();
        bench.open();
        assertEquals(Refusal.OTHER_BOOT.code(), bench.askOf(first.boot, new Do(Do.COMMAND, TestBench.READY, 1)).code);
        assertEquals(Refusal.OTHER_BOOT.code(), bench.askOf(first.boot, new Arm(2, 0, 0, 0, 1)).code);
        bench.run(500_000);
        assertEquals(0, bench.lastRecord().told(TestBench.STEP));
        assertEquals(0, bench.lastRecord().told(TestBench.COMMAND));
    }

    @Test
    void runsAgainWhenItIsToldTo() {
        TestBench bench = stalled(2);
        int greetings = bench.hellos.size();
        assertTrue(bench.runUntil(() -> bench.hellos.size() > greetings, 3_000_000));
        bench.loseLease();
        bench.open();
        bench.home();
        int armed = bench.arm(2, Programs.NO_GUARDS, Programs.startRun());
        assertTrue(bench.runUntilStep(8, 8_000_000));
        assertEquals(List.of(2, 5, 4, 8), bench.stepsSince(armed));
        assertEquals(1, bench.since(armed, EventKind.ARMED).size());
    }
}
