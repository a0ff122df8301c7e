package snagbench.virtualrig.shuttle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.wire.EntryKind;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Record;

/** Whole runs: real control code with the real probe, driven over its line. */
class ShuttleRunTests {
    private static final int STOPPED = 0;
    private static final int REACHING = 2;
    private static final int EASING = 3;
    private static final int DRAWING_BACK = 4;
    private static final int GRIPPING = 5;
    private static final int GIVEN_UP = 7;
    private static final int HANDING_OVER = 8;

    @ParameterizedTest
    @ValueSource(strings = {"standard", "without-FS-01", "without-FS-02", "without-FS-03", "weak-battery"})
    void fetchesThePotWithoutAFailSafe(String build) {
        for (int seed = 1; seed <= 50; seed++) {
            TestBench bench = TestBench.ready(build);
            int armed = bench.arm(seed, Programs.NO_GUARDS, Programs.startRun());
            assertTrue(bench.runUntilStep(HANDING_OVER, 8_000_000), "seed " + seed + ": " + bench.stepsSince(armed));
            assertEquals(
                    List.of(REACHING, GRIPPING, DRAWING_BACK, HANDING_OVER), bench.stepsSince(armed), "seed " + seed);
            assertEquals(List.of(), bench.answersSince(armed), "seed " + seed);
            bench.run(100_000);
            assertEquals(1, bench.lastRecord().real(TestBench.BEAM), "the pot came along, seed " + seed);
        }
    }

    @Test
    void reachesAgainWhenSomethingWasInTheWay() {
        for (int seed = 1; seed <= 10; seed++) {
            TestBench bench = TestBench.ready("standard");
            int armed = bench.arm(
                    seed,
                    Programs.NO_GUARDS,
                    Programs.startRun(),
                    Programs.force(1, EntryKind.STUCK_AT, TestBench.OBSTACLE, 2200),
                    Programs.fromPosition(1, 1000),
                    Programs.untilAnswered(1, 2));
            assertTrue(bench.runUntilStep(HANDING_OVER, 15_000_000), "seed " + seed + ": " + bench.stepsSince(armed));
            assertEquals(
                    List.of(REACHING, DRAWING_BACK, REACHING, GRIPPING, DRAWING_BACK, HANDING_OVER),
                    bench.stepsSince(armed),
                    "seed " + seed);
            assertEquals(List.of(2), bench.answersSince(armed), "seed " + seed);
        }
    }

    @Test
    void cannotPassAnObstacleAndDrawsItsStallCurrentThere() {
        TestBench bench = TestBench.ready("standard");
        int armed = bench.arm(
                3,
                Programs.NO_GUARDS,
                Programs.startRun(),
                Programs.force(1, EntryKind.STUCK_AT, TestBench.OBSTACLE, 2200),
                Programs.inStep(1, REACHING));
        assertTrue(bench.runUntilStep(DRAWING_BACK, 5_000_000));
        int furthest = 0;
        int current = 0;
        for (Record one : bench.recordsSince(armed)) {
            furthest = Math.max(furthest, one.real(TestBench.POSITION));
            current = Math.max(current, one.real(TestBench.CURRENT));
        }
        assertEquals(2200, furthest);
        // 80 % of 12.4 to 12.7 V over 1.45 ohm and 0.64 * 0.08 ohm: 6.6 to 6.8 A.
        assertTrue(current >= 655 && current <= 690, "current " + current);
    }

    @Test
    void takesARunUpWhenNoPotWasThere() {
        for (int seed = 1; seed <= 10; seed++) {
            TestBench bench = TestBench.ready("standard");
            int armed = bench.arm(
                    seed,
                    Programs.NO_GUARDS,
                    Programs.startRun(),
                    Programs.force(1, EntryKind.STUCK_AT, TestBench.BEAM, 0),
                    Programs.inStep(1, REACHING),
                    Programs.untilAnswered(1, 3));
            assertTrue(bench.runUntilStep(HANDING_OVER, 15_000_000), "seed " + seed + ": " + bench.stepsSince(armed));
            assertEquals(
                    List.of(REACHING, DRAWING_BACK, REACHING, GRIPPING, DRAWING_BACK, HANDING_OVER),
                    bench.stepsSince(armed),
                    "seed " + seed);
            assertEquals(List.of(3), bench.answersSince(armed), "seed " + seed);
            int strongest = bench.recordsSince(armed).stream()
                    .mapToInt(one -> one.told(TestBench.COMMAND))
                    .max()
                    .orElse(0);
            assertEquals(1000, strongest, "seed " + seed);
        }
    }

    @Test
    void easesOffAndGoesOnWhenItDrawsTooMuch() {
        TestBench bench = TestBench.ready("standard");
        int armed = bench.arm(
                4,
                Programs.NO_GUARDS,
                Programs.startRun(),
                Programs.force(1, EntryKind.STUCK_AT, TestBench.CURRENT, 580),
                Programs.fromPosition(1, 1500),
                Programs.untilAnswered(1, 1));
        assertTrue(bench.runUntilStep(HANDING_OVER, 15_000_000), () -> "steps " + bench.stepsSince(armed));
        assertEquals(
                List.of(REACHING, EASING, REACHING, GRIPPING, DRAWING_BACK, HANDING_OVER), bench.stepsSince(armed));
        assertEquals(List.of(1), bench.answersSince(armed));
        Event on = bench.since(armed, EventKind.ENTRY_ON).stream()
                .filter(event -> event.a == 1)
                .findFirst()
                .orElseThrow();
        Event answered = bench.since(armed, EventKind.ANSWERED).get(0);
        int after = answered.micros - on.micros;
        assertTrue(after >= 60_000 && after < 66_000, "answered after " + after + " us");
        List<Event> steps = bench.since(armed, EventKind.STATE);
        int eased = steps.get(2).micros - steps.get(1).micros;
        assertTrue(eased >= 150_000 && eased < 156_000, "eased for " + eased + " us");
        int strongest = bench.recordsSince(steps.get(2).tick).stream()
                .filter(one -> one.told(TestBench.STEP) == REACHING)
                .mapToInt(one -> one.told(TestBench.COMMAND))
                .max()
                .orElse(0);
        assertEquals(600, strongest);
    }

    @Test
    void givesUpAfterThreeTries() {
        TestBench bench = TestBench.ready("standard");
        int armed = bench.arm(
                5,
                Programs.NO_GUARDS,
                Programs.startRun(),
                Programs.force(1, EntryKind.STUCK_AT, TestBench.OBSTACLE, 2200),
                Programs.inStep(1, REACHING));
        assertTrue(bench.runUntilStep(GIVEN_UP, 20_000_000));
        assertTrue(bench.runUntilStep(REACHING, 3_000_000), "goes on with the next pot");
        assertEquals(
                List.of(REACHING, DRAWING_BACK, REACHING, DRAWING_BACK, REACHING, GIVEN_UP, REACHING),
                bench.stepsSince(armed));
        assertEquals(List.of(2, 2, 2, 10), bench.answersSince(armed));
        Record last = bench.lastRecord();
        assertTrue(Math.abs(last.real(TestBench.POSITION)) <= 20, "at " + last.real(TestBench.POSITION));
        assertEquals(1, last.told(TestBench.channel("pots.skipped")));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3})
    void looksAwayWhereAFailSafeIsInhibited(int failSafe) {
        int channel = failSafe == 1 ? TestBench.CURRENT : failSafe == 2 ? TestBench.OBSTACLE : TestBench.BEAM;
        int value = failSafe == 1 ? 580 : failSafe == 2 ? 2200 : 0;
        for (int inhibited = 0; inhibited <= 1; inhibited++) {
            TestBench bench = TestBench.ready("standard");
            int armed = bench.arm(
                    6,
                    Programs.NO_GUARDS,
                    Programs.startRun(),
                    Programs.force(1, EntryKind.STUCK_AT, channel, value),
                    Programs.inStep(1, REACHING),
                    Programs.force(2, EntryKind.STUCK_AT, TestBench.INHIBIT_FS_01 + failSafe - 1, inhibited),
                    Programs.inStep(2, REACHING));
            bench.run(3_000_000);
            assertEquals(inhibited == 0, bench.answersSince(armed).contains(failSafe));
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3})
    void doesNotLookForWhatItsBuildLeavesOut(int failSafe) {
        int channel = failSafe == 1 ? TestBench.CURRENT : failSafe == 2 ? TestBench.OBSTACLE : TestBench.BEAM;
        int value = failSafe == 1 ? 580 : failSafe == 2 ? 2200 : 0;
        TestBench bench = TestBench.ready("without-FS-0" + failSafe);
        int armed = bench.arm(
                6,
                Programs.NO_GUARDS,
                Programs.startRun(),
                Programs.force(1, EntryKind.STUCK_AT, channel, value),
                Programs.inStep(1, REACHING));
        bench.run(3_000_000);
        assertEquals(List.of(), bench.answersSince(armed));
    }

    @Test
    void stopsAndStaysStoppedWhenTheLeaseRunsOut() {
        TestBench bench = TestBench.ready("standard");
        int armed = bench.arm(7, Programs.NO_GUARDS, Programs.startRun());
        bench.run(900_000);
        bench.loseLease();
        assertTrue(bench.runUntilStep(STOPPED, 3_000_000));
        bench.run(400_000);
        List<Event> stops = bench.since(armed, EventKind.STOP);
        assertEquals(2, stops.size());
        int took = stops.get(1).micros - stops.get(0).micros;
        assertTrue(took > 0 && took <= 306_000, "stop took " + took + " us");
        int stoodAt = bench.lastRecord().real(TestBench.POSITION);
        bench.run(1_000_000);
        assertEquals(stoodAt, bench.lastRecord().real(TestBench.POSITION));
        assertEquals(0, bench.lastRecord().told(TestBench.COMMAND));
        assertEquals(0, bench.lastRecord().real(TestBench.CURRENT), 3);
    }

    @Test
    void isStoppedByTheGuardBeforeTheEndStopWhenTheEncoderIsFrozen() {
        for (int seed = 1; seed <= 20; seed++) {
            TestBench bench = TestBench.ready("without-rack");
            int armed = bench.arm(
                    seed,
                    new snagbench.wire.Guard[] {Programs.travel(-40, 4050)},
                    Programs.startRun(),
                    Programs.force(1, EntryKind.FREEZE, TestBench.POSITION, 0),
                    Programs.fromPosition(1, 2000));
            assertTrue(bench.runUntilStep(STOPPED, 5_000_000), "seed " + seed);
            bench.run(500_000);
            assertEquals(1, bench.since(armed, EventKind.GUARD).size());
            Record last = bench.lastRecord();
            assertTrue(
                    last.real(TestBench.POSITION) > 4050 && last.real(TestBench.POSITION) < 4240,
                    "seed " + seed + ": stands at " + last.real(TestBench.POSITION));
            assertEquals(Record.LATCHED, last.flags & Record.LATCHED);
            bench.home();
            assertTrue(Math.abs(bench.lastRecord().real(TestBench.POSITION)) <= 20);
        }
    }

    @Test
    void runsIntoTheEndStopWithoutTheGuard() {
        TestBench bench = TestBench.ready("without-rack");
        bench.arm(
                1,
                Programs.NO_GUARDS,
                Programs.startRun(),
                Programs.force(1, EntryKind.FREEZE, TestBench.POSITION, 0),
                Programs.fromPosition(1, 2000));
        bench.run(4_000_000);
        assertEquals(4250, bench.lastRecord().real(TestBench.POSITION));
    }
}
