package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.FS_01;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.trace.SyntheticTrace;

/** Which of two moments came first. Ticks are 5 ms apart and the fault strikes in tick 40. */
class OrderTests {
    private static SyntheticTrace struck() {
        return new SyntheticTrace(200).told(POSITION, tick -> 1).on(40, 0);
    }

    /** Expectation 0 is the answer of FS-02, 1 that of FS-01, 2 the step, 3 the order. */
    private static Finding order(SyntheticTrace trace, Anchor... moments) {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(500), INJECTION)
                .answeredBy("gives up", FS_01, within(500), INJECTION)
                .becomes("draws back", when(step("DRAWING_BACK")), within(500), INJECTION)
                .expect(at -> new Expectation.Order(at, "order", List.of(moments)));
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(100))
                .findings()
                .get(3);
    }

    private static String fact(Finding finding, String label) {
        return finding.facts().stream()
                .filter(one -> one.label().equals(label))
                .map(Fact::text)
                .findFirst()
                .orElse("");
    }

    private static final Anchor SEES = after(0, "sees it");
    private static final Anchor GIVES_UP = after(1, "gives up");
    private static final Anchor DRAWS_BACK = after(2, "draws back");

    private static SyntheticTrace usual() {
        return struck().answered(60, 2).answered(64, 1).step(70, "DRAWING_BACK");
    }

    @Test
    void theNarrowestGapIsTheMargin() {
        Finding finding = order(usual(), INJECTION, SEES, GIVES_UP, DRAWS_BACK);

        assertEquals(Verdict.PASS, finding.verdict());
        assertEquals(OptionalLong.of(20_000), finding.marginMicros());
        assertEquals("20.0 ms apart", fact(finding, "closest"));
    }

    @Test
    void theOtherWayRoundTellsByHowMuch() {
        Finding finding = order(usual(), DRAWS_BACK, SEES);

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals(OptionalLong.of(-50_000), finding.marginMicros());
        assertEquals("\"sees it\" came 50.0 ms before \"draws back\"", fact(finding, "but was"));
        assertEquals(60, finding.metTick().orElse(60));
    }

    @Test
    void ofTwoEventsInATickTheirNumbersTell() {
        SyntheticTrace trace = struck().answered(60, 2).answered(60, 1).step(70, "DRAWING_BACK");

        assertEquals(Verdict.PASS, order(trace, SEES, GIVES_UP).verdict());
        Finding turned = order(trace, GIVES_UP, SEES);
        assertEquals(Verdict.FAIL, turned.verdict());
        assertEquals(OptionalLong.of(0), turned.marginMicros());
        assertEquals("\"sees it\" came no later than \"gives up\", in the same tick", fact(turned, "but was"));
    }

    /** A state is what it is at the end of a tick: it may follow on an event of the tick, and no event on it. */
    @Test
    void aStateComesBehindAnEventOfItsTick() {
        SyntheticTrace trace = struck().answered(60, 2).answered(62, 1).step(60, "DRAWING_BACK");

        assertEquals(Verdict.PASS, order(trace, SEES, DRAWS_BACK).verdict());
        assertEquals(Verdict.FAIL, order(trace, DRAWS_BACK, SEES).verdict());
        assertEquals(Verdict.PASS, order(trace, DRAWS_BACK, GIVES_UP).verdict());
    }

    @Test
    void aMomentThatNeverCameLeavesItUnjudged() {
        Finding finding = order(struck().answered(60, 2).step(70, "DRAWING_BACK"), SEES, GIVES_UP);

        assertEquals(Verdict.INCONCLUSIVE, finding.verdict());
        assertEquals(OptionalLong.empty(), finding.marginMicros());
    }

    /** What lies behind a restart lies behind all that was before it, whatever the two clocks say. */
    @Test
    void whatIsBehindARestartIsLaterThanWhatIsBefore() {
        Anchor restarts = after(1, "restarts");
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(500), INJECTION)
                .expect(at -> new Expectation.Restart(at, "restarts", within(2000), INJECTION))
                .answeredBy("says so", FS_01, within(500), restarts)
                .expect(at -> new Expectation.Order(at, "order", List.of(SEES, after(2, "says so"))))
                .expect(at -> new Expectation.Order(at, "turned", List.of(after(2, "says so"), SEES)));
        SyntheticTrace trace =
                struck().answered(60, 2).restartsAfter(80, 500_000).goesOn(100);
        List<Finding> findings =
                Judge.judge(script.script(), trace.trace(), Scripts.rig(100)).findings();

        assertEquals(Verdict.PASS, findings.get(3).verdict());
        assertEquals(OptionalLong.empty(), findings.get(3).marginMicros(), "there is no clock for both");
        assertEquals(Verdict.FAIL, findings.get(4).verdict());
        assertEquals(OptionalLong.empty(), findings.get(4).marginMicros());
        Finding unheard = Judge.judge(
                        script.script(),
                        struck().answered(60, 2).restartsAfter(80, 500_000).trace(),
                        Scripts.rig(100))
                .findings()
                .get(3);
        assertEquals(Verdict.INCONCLUSIVE, unheard.verdict());
    }
}
