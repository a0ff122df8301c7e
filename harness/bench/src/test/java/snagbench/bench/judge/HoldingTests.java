package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import java.util.OptionalLong;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.trace.SyntheticTrace;

/** What must hold for a time: {@code stays} and {@code settles}. Ticks are 5 ms apart and the fault strikes in tick 40. */
class HoldingTests {
    private static final int STRIKE = 40;

    private static SyntheticTrace struck() {
        return new SyntheticTrace(200).told(POSITION, tick -> 1).on(STRIKE, 0);
    }

    private static Finding judge(Scripts script, SyntheticTrace trace) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(100))
                .findings()
                .get(0);
    }

    private static Scripts stays(Condition condition, long millis, Expectation.Window within) {
        return new Scripts()
                .expect(at -> new Expectation.Stays(at, "stays", condition, millis * 1000, within, INJECTION));
    }

    private static Scripts settles(OptionalLong forMicros, Expectation.Window within) {
        Condition band = when(term(CURRENT, Relation.AT_LEAST, 98), term(CURRENT, Relation.AT_MOST, 102));
        return new Scripts().expect(at -> new Expectation.Settles(at, "settles", band, forMicros, within, INJECTION));
    }

    private static Condition easy() {
        return when(term(CURRENT, Relation.BELOW, 100));
    }

    /** G_[0,100 ms] from tick 40 on takes in tick 60, and not tick 61. */
    @ParameterizedTest
    @CsvSource({"59, FAIL, -5000", "60, FAIL, 0", "61, PASS, 5000", "62, PASS, 10000"})
    void itMustHoldUpToItsTimeAndInTheTickOfThat(int broken, Verdict verdict, long margin) {
        Finding finding =
                judge(stays(easy(), 100, within(0)), struck().real(CURRENT, tick -> tick == broken ? 100 : 99));

        assertEquals(verdict, finding.verdict());
        assertEquals(OptionalLong.of(margin), finding.marginMicros());
    }

    /** It must hold from tick 40 to tick 60, and is broken in tick 90; how long it held for certain, the lost records end. */
    @Test
    void whatIsNotKnownEndsWhatWasToSpare() {
        SyntheticTrace trace =
                struck().real(CURRENT, tick -> tick == 90 ? 100 : 99).loseTicks(70, 80);

        Finding finding = judge(stays(easy(), 100, within(0)), trace);

        assertEquals(Verdict.PASS, finding.verdict());
        // Tick 70 was some time behind tick 69.
        assertEquals(OptionalLong.of((69 - 40) * 5000L + 1 - 100_000), finding.marginMicros());
    }

    @ParameterizedTest
    @CsvSource({"39, PASS", "40, PASS", "41, FAIL"})
    void withoutAWindowItBeginsAtTheAnchorItself(int from, Verdict verdict) {
        assertEquals(
                verdict,
                judge(stays(easy(), 100, within(0)), struck().real(CURRENT, tick -> tick < from ? 100 : 99))
                        .verdict());
    }

    /** It may begin up to 250 ms after the fault: in tick 90. */
    @ParameterizedTest
    @CsvSource({"89, PASS, 5000", "90, PASS, 0", "91, FAIL, -5000"})
    void itMayBeginUpToTheDeadline(int from, Verdict verdict, long margin) {
        Finding finding =
                judge(stays(easy(), 100, within(250)), struck().real(CURRENT, tick -> tick < from ? 100 : 99));

        assertEquals(verdict, finding.verdict());
        assertEquals(OptionalLong.of(margin), finding.marginMicros());
    }

    @ParameterizedTest
    @CsvSource({"95, FAIL", "96, FAIL", "97, PASS"})
    void itMayHaveBegunBeforeTheLowerEdgeIfItStillLastsFromThereOn(int broken, Verdict verdict) {
        // From 80 ms on, which is tick 56, for 200 ms, which is up to tick 96.
        assertEquals(
                verdict,
                judge(stays(easy(), 200, within(80, 80)), struck().real(CURRENT, tick -> tick < broken ? 99 : 100))
                        .verdict());
    }

    @Test
    void aFirstTryThatIsTooShortDoesNotMatter() {
        Finding finding = judge(
                stays(easy(), 100, within(250)),
                struck().real(CURRENT, tick -> (tick >= 45 && tick < 60) || tick >= 70 ? 99 : 100));

        assertEquals(Verdict.PASS, finding.verdict());
        assertEquals(OptionalLong.of(70), finding.metTick());
    }

    @Test
    void tellsHowLongTheLongestTryWas() {
        Finding finding = judge(
                stays(easy(), 100, within(250)), struck().real(CURRENT, tick -> tick >= 45 && tick < 60 ? 99 : 150));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals(
                "it held from +25.0 ms on, but only for 75.0 ms: reach.current 1.50 A at +100.0 ms",
                text(finding, "but was"));
        assertEquals(OptionalLong.of(-25_000), finding.marginMicros());
    }

    @Test
    void tellsTheLeastDistanceFromTheLimitWhileItHeld() {
        Finding finding = judge(
                stays(easy(), 100, within(0)), struck().real(CURRENT, tick -> tick == 50 ? 93 : tick == 70 ? 98 : 10));

        assertEquals("reach.current 0.93 A at +50.0 ms (0.07 A to spare)", text(finding, "closest"));
        assertEquals("+0.07 A", finding.marginValue().orElseThrow().show());
    }

    /** The script ends 100 ms after its last deadline of 250 ms: in tick 110. */
    @ParameterizedTest
    @CsvSource({"89, PASS", "90, PASS", "91, FAIL"})
    void aReadingSettlesUpToTheDeadline(int from, Verdict verdict) {
        assertEquals(
                verdict,
                judge(settles(OptionalLong.empty(), within(250)), struck().real(CURRENT, at -> at < from ? 97 : 98))
                        .verdict());
    }

    @ParameterizedTest
    @CsvSource({"109, FAIL", "110, FAIL", "111, PASS"})
    void whatSettlesMustStaySettledToTheScriptsEnd(int leaves, Verdict verdict) {
        assertEquals(
                verdict,
                judge(
                                settles(OptionalLong.empty(), within(250)),
                                struck().real(CURRENT, at -> at < 60 || at == leaves ? 103 : 102))
                        .verdict());
    }

    @Test
    void aBandThatIsOnlyCrossedIsNotSettledIn() {
        Finding finding = judge(settles(OptionalLong.empty(), within(250)), struck().real(CURRENT, tick -> 2 * tick));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals(
                "it held from +45.0 ms on, but only for 15.0 ms: reach.current 1.04 A, reach.current 1.04 A at +60.0 ms",
                text(finding, "but was"));
    }

    @Test
    void othersCountFromTheTickInWhichItBegan() {
        Scripts script = stays(easy(), 100, within(250))
                .becomes("draws back", when(step("DRAWING_BACK")), within(50), after(0, "stays"));
        SyntheticTrace trace = struck().real(CURRENT, tick -> tick < 70 ? 100 : 99);

        assertEquals(
                Verdict.PASS,
                Judge.judge(script.script(), trace.step(80, "DRAWING_BACK").trace(), Scripts.rig(100))
                        .findings()
                        .get(1)
                        .verdict());
    }

    @Test
    void whatHangsOnASettlingToTheEndDoesNotPutOffItsEnd() {
        // The settling is judged to tick 110, what hangs on it to tick 60 + 500 ms, which is tick 160.
        Scripts script = settles(OptionalLong.empty(), within(250))
                .becomes("draws back", when(step("DRAWING_BACK")), within(500), after(0, "settles"));
        SyntheticTrace trace = struck().real(CURRENT, tick -> tick < 60 || tick > 120 ? 90 : 100)
                .step(160, "DRAWING_BACK");

        Judgement judgement = Judge.judge(script.script(), trace.trace(), Scripts.rig(100));

        assertEquals(Verdict.PASS, judgement.findings().get(0).verdict());
        assertEquals(Verdict.PASS, judgement.findings().get(1).verdict());
    }

    @Test
    void aTraceThatEndsWhileItStillHoldsSettlesNothing() {
        SyntheticTrace upTo59 = new SyntheticTrace(60).told(POSITION, tick -> 1).on(STRIKE, 0);
        SyntheticTrace upTo60 = new SyntheticTrace(61).told(POSITION, tick -> 1).on(STRIKE, 0);

        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(stays(easy(), 100, within(0)), upTo59).verdict());
        assertEquals(Verdict.PASS, judge(stays(easy(), 100, within(0)), upTo60).verdict());
    }

    @Test
    void aLostRecordWhileItMustHoldSettlesNothing() {
        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(stays(easy(), 100, within(0)), struck().loseTicks(50, 50)).verdict());
        assertEquals(
                Verdict.PASS,
                judge(stays(easy(), 100, within(0)), struck().loseTicks(61, 70)).verdict());
    }

    @Test
    void aPeakBetweenRecordsBreaksIt() {
        assertEquals(
                Verdict.FAIL,
                judge(
                                new Scripts()
                                        .expect(at ->
                                                new Expectation.Stays(at, "stays", easy(), 300_000, within(0), BEGIN)),
                                struck().period(5).real(CURRENT, tick -> tick == 52 ? 100 : 50))
                        .verdict());
    }

    private static String text(Finding finding, String label) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(label))
                .map(Fact::text)
                .collect(Collectors.joining());
    }
}
