package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.judge.Scripts.BEGIN;
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
import static snagbench.bench.trace.SyntheticTrace.VOLTAGE;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.SyntheticTrace;

/**
 * A restart that the script expects, and what is judged behind it. Ticks are 5 ms apart and the fault strikes in tick 40, at
 * 200 ms. The new boot is heard of from its tick 3 on; all channels read 5 in it, and FS-01 answers in its tick 7.
 */
class RestartTests {
    private static final int STRIKE = 40;

    private static SyntheticTrace struck() {
        return new SyntheticTrace(200).told(POSITION, tick -> 1).on(STRIKE, 0);
    }

    private static Scripts restarts(Expectation.Window within) {
        return new Scripts().expect(at -> new Expectation.Restart(at, "restarts", within, INJECTION));
    }

    private static Judgement judge(Scripts script, SyntheticTrace trace) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(100));
    }

    /** Last heard of 100 ms after the fault, and of the new boot so much later: it was at some time between. */
    @ParameterizedTest
    @CsvSource({"249, PASS", "250, PASS", "251, INCONCLUSIVE"})
    void aRestartIsInTimeIfTheHostHeardOfItByTheDeadline(long heardMillis, Verdict verdict) {
        Judgement judgement = judge(restarts(within(250)), struck().restartsAfter(60, 200_000 + heardMillis * 1000));

        assertEquals(verdict, judgement.verdict());
    }

    @ParameterizedTest
    @CsvSource({"89, INCONCLUSIVE", "90, INCONCLUSIVE", "91, FAIL"})
    void aRestartIsLateIfTheRigWasHeardOfBehindTheDeadline(int lastTick, Verdict verdict) {
        assertEquals(
                verdict,
                judge(restarts(within(250)), struck().restartsAfter(lastTick, 2_000_000))
                        .verdict());
    }

    @ParameterizedTest
    @CsvSource({"279, FAIL", "280, INCONCLUSIVE"})
    void aRestartBeforeTheLowerEdgeIsWrongToo(long heardMillis, Verdict verdict) {
        assertEquals(
                verdict,
                judge(restarts(within(80, 250)), struck().restartsAfter(45, heardMillis * 1000))
                        .verdict());
    }

    @Test
    void aRestartThatMayHaveBeenOnEitherSideOfAnEdgeSaysSo() {
        Finding finding = judge(restarts(within(250)), struck().restartsAfter(60, 700_000))
                .findings()
                .get(0);

        assertEquals(
                "it may have come on either side of an edge of the window: only the host timed it",
                text(finding, "but was"));
        assertEquals("the controller restarts between +100.0 ms and +500.0 ms", text(finding, "reached"));
    }

    @Test
    void withoutTheHostsTimeARestartIsNotTimed() {
        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(restarts(within(250)), struck().restartsAfter(60)).verdict());
    }

    @Test
    void aRestartThatDoesNotComeFails() {
        Judgement judgement = judge(restarts(within(250)), struck());

        assertEquals(Verdict.FAIL, judgement.verdict());
        assertEquals(
                "the controller kept running at +255.0 ms",
                text(judgement.findings().get(0), "but was"));
    }

    @Test
    void aRestartBeforeWhatItIsExpectedAfterIsNotTheExpectedOne() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(50), INJECTION)
                .expect(at -> new Expectation.Restart(at, "restarts", within(250), after(0, "sees it")));

        Judgement judgement = judge(script, struck().restartsAfter(60, 500_000));

        assertEquals(Verdict.FAIL, judgement.findings().get(0).verdict());
        assertEquals(Verdict.FAIL, judgement.verdict());
        assertTrue(
                judgement.reasons().get(0).contains("the script does not expect it"),
                judgement.reasons().toString());
    }

    @Test
    void aRestartBeforeTheExpectedTimeStillFails() {
        Scripts later = new Scripts().expect(at -> new Expectation.Restart(at, "restarts", within(250, 500), BEGIN));
        assertEquals(
                Verdict.FAIL,
                judge(later, struck().restartsAfter(45, 240_000).goesOn(20)).verdict());
    }

    @ParameterizedTest
    @CsvSource({"6, PASS", "5, FAIL"})
    void whatIsCountedFromTheRestartIsJudgedOnTheNewClock(int limit, Verdict verdict) {
        Scripts script = restarts(within(250))
                .expect(at -> new Expectation.Always(
                        at,
                        "always",
                        when(term(CURRENT, Relation.BELOW, limit)),
                        new Stretch(after(0, "restarts"), Optional.of(within(15, 60)), Optional.empty())));

        Judgement judgement = judge(script, struck().restartsAfter(60, 400_000).goesOn(20));

        assertEquals(
                List.of(Verdict.PASS, verdict),
                judgement.findings().stream().map(Finding::verdict).limit(2).toList());
    }

    @ParameterizedTest
    @CsvSource({"10, PASS", "9, INCONCLUSIVE"})
    void whatIsNotHeardOfTheNewBootSettlesNothing(int ticks, Verdict verdict) {
        Scripts script = restarts(within(250))
                .expect(at -> new Expectation.Always(
                        at,
                        "always",
                        when(term(CURRENT, Relation.BELOW, 6)),
                        new Stretch(after(0, "restarts"), Optional.of(within(15, 60)), Optional.empty())));

        assertEquals(
                verdict,
                judge(script, struck().restartsAfter(60, 400_000).goesOn(ticks)).verdict());
    }

    @Test
    void ticksOfTheNewBootThatNobodyHeardOfSettleNothing() {
        Scripts script = restarts(within(250))
                .expect(at -> new Expectation.Always(
                        at,
                        "always",
                        when(term(CURRENT, Relation.BELOW, 6)),
                        new Stretch(after(0, "restarts"), Optional.of(within(10, 60)), Optional.empty())));

        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(script, struck().restartsAfter(60, 400_000).goesOn(20)).verdict());
    }

    @Test
    void aPartThatIsMissingSettlesNothing() {
        Scripts script = restarts(within(250)).becomes("ready", when(step("READY")), within(500), after(0, "restarts"));

        Judgement judgement = judge(script, struck().restartsAfter(60, 400_000));

        assertEquals(Verdict.INCONCLUSIVE, judgement.verdict());
        assertEquals(
                "not judged: nothing was recorded behind a restart of the controller",
                text(judgement.findings().get(1), "but was"));
    }

    @Test
    void aFailSafeOfTheNewBootCountsThere() {
        Scripts quiet = restarts(within(250))
                .expect(at -> new Expectation.MustNotFire(
                        at,
                        "quiet",
                        FS_01,
                        Optional.of(new Stretch(after(0, "restarts"), Optional.of(within(15, 60)), Optional.empty()))));
        Scripts before = restarts(within(250)).mustNotFire(FS_01);
        SyntheticTrace trace = struck().restartsAfter(60, 400_000).goesOn(20);

        assertEquals(Verdict.FAIL, judge(quiet, trace).findings().get(1).verdict());
        assertEquals(Verdict.PASS, judge(before, trace).findings().get(1).verdict());
    }

    @Test
    void whatLastsToTheEndLastsToTheLastThatWasSeenBeforeAnExpectedRestart() {
        Scripts script = restarts(within(250)).always(when(term(VOLTAGE, Relation.ABOVE, 700)));

        assertEquals(
                Verdict.PASS, judge(script, struck().restartsAfter(60, 400_000)).verdict());
        assertEquals(
                Verdict.FAIL,
                judge(
                                script,
                                struck().real(VOLTAGE, tick -> tick == 60 ? 700 : 1200)
                                        .restartsAfter(60, 400_000))
                        .verdict());
        // An unexpected one leaves it open, and fails by itself.
        Scripts unexpected =
                new Scripts().always(when(term(VOLTAGE, Relation.ABOVE, 700))).end(900, BEGIN);
        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(unexpected, struck().restartsAfter(60, 400_000))
                        .findings()
                        .get(0)
                        .verdict());
    }

    private static String text(Finding finding, String label) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(label))
                .map(Fact::text)
                .collect(Collectors.joining());
    }
}
