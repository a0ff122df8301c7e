package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.FS_01;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Fault;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.wire.StopReason;

/** Ticks are 5 ms apart; the fault strikes in tick 40, at 200 ms; the rig settles in 500 ms; 3 s is the longest. */
class ScriptEndTests {
    private static OptionalLong end(Scripts script, SyntheticTrace trace) {
        return ScriptEnd.micros(script.script(), trace.trace(), 500_000, 3_000_000);
    }

    private static SyntheticTrace struck(int ticks) {
        return new SyntheticTrace(ticks).on(40, 0);
    }

    private static Scripts seesItAndReachesAgain() {
        return new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .becomes("reaches again", when(step("REACHING")), within(1000), after(0, "sees it"));
    }

    /** A step that hangs on what is to last to the end has a deadline of its own, which is no part of that end. */
    @Test
    void whatHangsOnSomethingThatLastsToTheEndDoesNotPutTheEndOff() {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Settles(
                        at,
                        "settles",
                        when(term(CURRENT, Relation.BELOW, 100)),
                        OptionalLong.empty(),
                        within(100),
                        INJECTION))
                .becomes("then", when(step("DRAWING_BACK")), within(300), after(0, "settles"));
        SyntheticTrace trace = new SyntheticTrace(200)
                .told(POSITION, tick -> 1)
                .on(40, 0)
                .real(CURRENT, tick -> tick >= 120 ? 200 : 0)
                .step(60, "DRAWING_BACK");

        // It held from tick 40 on to the end of the rest, 100 ms behind the deadline of 100 ms: tick 80. The break is
        // later.
        assertEquals(
                Verdict.PASS,
                Judge.judge(script.script(), trace.trace(), Scripts.rig(100))
                        .findings()
                        .get(0)
                        .verdict());
    }

    @Test
    void isNotKnownBeforeTheFaultStruck() {
        assertEquals(OptionalLong.empty(), end(seesItAndReachesAgain(), new SyntheticTrace(40)));
    }

    @Test
    void isNotKnownWhileAnAnchorIsToCome() {
        assertEquals(OptionalLong.empty(), end(seesItAndReachesAgain(), struck(50)));
    }

    @Test
    void isTheLastDeadlineAndTheSettlingTime() {
        assertEquals(
                OptionalLong.of(300_000 + 1_000_000 + 500_000),
                end(seesItAndReachesAgain(), struck(61).answered(60, 2)));
    }

    @Test
    void leavesOutWhatIsCountedFromAnAnchorThatWasMissed() {
        assertEquals(OptionalLong.of(200_000 + 250_000 + 500_000), end(seesItAndReachesAgain(), struck(91)));
    }

    @Test
    void isTheWrittenOne() {
        assertEquals(
                OptionalLong.of(300_000 + 2_000_000),
                end(
                        seesItAndReachesAgain().end(2000, after(0, "sees it")),
                        struck(61).answered(60, 2)));
    }

    @Test
    void isNotBeforeTheLastWindowCloses() {
        assertEquals(
                OptionalLong.of(300_000 + 1_000_000),
                end(
                        seesItAndReachesAgain().end(100, after(0, "sees it")),
                        struck(61).answered(60, 2)));
    }

    @Test
    void isTheDefaultWhereTheWrittenOneCountsFromAnAnchorThatWasMissed() {
        assertEquals(
                OptionalLong.of(200_000 + 250_000 + 500_000),
                end(seesItAndReachesAgain().end(2000, after(0, "sees it")), struck(91)));
    }

    @Test
    void isTheFaultsTimeAndTheSettlingTimeWhereNothingIsWaitedFor() {
        Scripts script = new Scripts()
                .inject(when(step("REACHING")), new Fault.Freeze(), OptionalLong.of(30_000))
                .mustNotFire(FS_01);

        assertEquals(OptionalLong.of(200_000 + 30_000 + 500_000), end(script, struck(50)));
    }

    @Test
    void isNeverBehindTheLongest() {
        Scripts script = new Scripts().answeredBy("sees it", FS_02, within(5000), INJECTION);

        assertEquals(OptionalLong.of(3_000_000), end(script, struck(50)));
        assertEquals(OptionalLong.of(3_000_000), end(script, new SyntheticTrace(601)));
        assertEquals(OptionalLong.empty(), end(script, new SyntheticTrace(600)));
    }

    @Test
    void isNowWhereTheProgramEndedTheRigStoppedOrTheControllerRestarted() {
        assertEquals(
                OptionalLong.of(500_000), end(seesItAndReachesAgain(), new SyntheticTrace(110).stageTimedOut(100, 0)));
        assertEquals(
                OptionalLong.of(500_000),
                end(seesItAndReachesAgain(), new SyntheticTrace(110).stop(100, StopReason.LEASE)));
        assertEquals(
                OptionalLong.of(500_000), end(seesItAndReachesAgain(), new SyntheticTrace(110).restartsAfter(100)));
    }

    @Test
    void whatTheJudgeAsksForIsSeenByThen() {
        Scripts script = seesItAndReachesAgain().never(when(step("GIVEN_UP")));
        SyntheticTrace trace = new SyntheticTrace(600)
                .told(SyntheticTrace.POSITION, tick -> 1)
                .on(40, 0)
                .answered(60, 2)
                .step(100, "REACHING");
        long end = end(script, trace).orElseThrow();

        Verdict upToTheEnd = Judge.judge(script.script(), trace.trace().upTo(end), Scripts.rig(500))
                .verdict();
        Verdict upToATickLess = Judge.judge(script.script(), trace.trace().upTo(end - 5000), Scripts.rig(500))
                .verdict();

        assertEquals(Verdict.PASS, upToTheEnd);
        assertEquals(Verdict.INCONCLUSIVE, upToATickLess);
    }
}
