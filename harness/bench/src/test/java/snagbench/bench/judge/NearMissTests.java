package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import java.util.function.IntUnaryOperator;
import org.junit.jupiter.api.Test;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Condition.Term;
import snagbench.bench.script.Fault;
import snagbench.bench.trace.SyntheticTrace;

/** What is said of a trigger that never held. Ticks are 5 ms apart; positions are in 0.1 mm. */
class NearMissTests {
    private static final Term FAR_OUT = term(POSITION, Relation.AT_LEAST, 200);
    private static final Term REACHES = step("REACHING");

    /** Out and back: furthest, 15.0 mm, in tick 50. */
    private static int outAndBack(int tick) {
        return tick <= 50 ? 100 + tick : 200 - tick;
    }

    private static SyntheticTrace moving(IntUnaryOperator position) {
        return new SyntheticTrace(100).real(POSITION, position);
    }

    private static String miss(SyntheticTrace trace, Anchor from, Term... terms) {
        Condition condition = when(terms);
        Scripts script = new Scripts().inject(condition, new Fault.StuckAt(1)).end(400, BEGIN);
        return new NearMiss(new Course(script.script(), trace.trace(), 0), condition, from).words();
    }

    @Test
    void theNearestReadingAndItsMomentAreTold() {
        assertEquals(
                "reach.position at least 20.0 mm never held; closest was 15.0 mm at +250.0 ms from arming",
                miss(moving(NearMissTests::outAndBack), BEGIN, FAR_OUT));
        assertEquals(
                "reach.position below 5.0 mm never held; closest was 10.0 mm at +0 ms from arming",
                miss(moving(NearMissTests::outAndBack), BEGIN, term(POSITION, Relation.BELOW, 50)));
    }

    @Test
    void ofTwoThatAreAsNearTheFirstIsTold() {
        assertEquals(
                "reach.position at least 20.0 mm never held; closest was 15.0 mm at +200.0 ms from arming",
                miss(moving(tick -> tick == 40 || tick == 60 ? 150 : 100), BEGIN, FAR_OUT));
    }

    @Test
    void whatWasBeforeItWasLookedForDoesNotCount() {
        assertEquals(
                "reach.position at least 20.0 mm never held; closest was 14.0 mm at +300.0 ms from arming",
                miss(moving(NearMissTests::outAndBack).on(60, 0), INJECTION, FAR_OUT));
        assertEquals(
                "reach.position at least 20.0 mm never held; closest was 15.0 mm at +250.0 ms from arming",
                miss(moving(NearMissTests::outAndBack).on(50, 0), INJECTION, FAR_OUT),
                "the moment itself counts");
    }

    @Test
    void aPartCountsOnlyWhereTheOthersHeld() {
        SyntheticTrace trace =
                moving(NearMissTests::outAndBack).step(20, "REACHING").step(31, "READY");
        assertEquals(
                "reach.position at least 20.0 mm never held; closest was 13.0 mm at +150.0 ms from arming",
                miss(trace, BEGIN, REACHES, FAR_OUT));
    }

    @Test
    void whereTheOthersNeverHeldEveryTickCounts() {
        assertEquals(
                "step REACHING never held; reach.position at least 20.0 mm never held;"
                        + " closest was 15.0 mm at +250.0 ms from arming",
                miss(moving(NearMissTests::outAndBack), BEGIN, REACHES, FAR_OUT));
    }

    @Test
    void partsThatNeverMetAreToldAsSuch() {
        SyntheticTrace trace = moving(tick -> tick == 50 ? 200 : 0).real(CURRENT, tick -> tick == 51 ? 900 : 0);
        Term strong = term(CURRENT, Relation.AT_LEAST, 900);
        assertEquals(
                "each part of it held at some time, but never all in one tick", miss(trace, BEGIN, FAR_OUT, strong));
        assertEquals(
                "reach.position at least 20.0 mm and reach.current at least 9.00 A held, but the rig told of no strike",
                miss(trace.real(CURRENT, tick -> tick == 50 ? 900 : 0), BEGIN, FAR_OUT, strong));
    }

    /** The first and the last record count as any other. */
    @Test
    void atTheEdgesOfTheTraceItHeldToo() {
        for (int edge : new int[] {0, 99}) {
            assertEquals(
                    "reach.position at least 20.0 mm held, but the rig told of no strike",
                    miss(moving(tick -> tick == edge ? 200 : 0), BEGIN, FAR_OUT));
        }
    }

    @Test
    void aTickWithoutARecordIsNoneThatWasNear() {
        assertEquals(
                "reach.position at least 20.0 mm never held; closest was 14.9 mm at +245.0 ms from arming",
                miss(moving(NearMissTests::outAndBack).loseTicks(50, 60), BEGIN, FAR_OUT));
    }

    @Test
    void whereNothingWasSeenThatIsSaid() {
        assertEquals(
                "no record shows any of it",
                miss(moving(NearMissTests::outAndBack).on(99, 0).loseTicks(99, 99), INJECTION, FAR_OUT));
    }

    /** A record of four ticks bounds what the reading was in each of them. */
    @Test
    void recordsOfMoreTicksTellTheirExtremes() {
        assertEquals(
                "reach.position at least 20.0 mm never held; closest was 15.0 mm at +255.0 ms from arming",
                miss(moving(tick -> tick == 50 ? 150 : 100).period(4), BEGIN, FAR_OUT));
    }
}
