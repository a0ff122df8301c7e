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

import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.trace.SyntheticTrace;

/** What is told of something that must hold for a time. Ticks are 5 ms apart; the fault strikes in tick 40, at 200 ms. */
class HoldingReportTests {
    private static final int STRIKE = 40;

    private static SyntheticTrace struck(int ticks) {
        return new SyntheticTrace(ticks).told(POSITION, tick -> 1).on(STRIKE, 0);
    }

    private static Finding judge(Scripts script, SyntheticTrace trace) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(100))
                .findings()
                .get(script.size() - 1);
    }

    private static Scripts stays(long millis, Expectation.Window within) {
        Condition easy = when(term(CURRENT, Relation.BELOW, 100));
        return new Scripts().expect(at -> new Expectation.Stays(at, "stays", easy, millis * 1000, within, INJECTION));
    }

    private static Scripts settlesToTheEnd(Expectation.Window within) {
        Condition band = when(term(CURRENT, Relation.AT_LEAST, 98), term(CURRENT, Relation.AT_MOST, 102));
        return new Scripts()
                .expect(at -> new Expectation.Settles(at, "settles", band, OptionalLong.empty(), within, INJECTION));
    }

    /** The window closes in tick 90; where it must begin at the anchor and last to the end, nothing has a measure. */
    @ParameterizedTest
    @CsvSource({"250, 88, 10000", "250, 90, 0", "0, 40, "})
    void settlingToTheEndHasAMarginOnlyWhereItHasAWindow(long window, int from, Long margin) {
        Finding finding =
                judge(settlesToTheEnd(within(window)), struck(200).real(CURRENT, tick -> tick < from ? 97 : 98));

        assertEquals(Verdict.PASS, finding.verdict());
        assertEquals(margin == null ? OptionalLong.empty() : OptionalLong.of(margin), finding.marginMicros());
    }

    @ParameterizedTest
    @CsvSource({"70, FAIL", "71, PASS"})
    void aStateThatFollowsCountsFromTheTickBehindTheOneInWhichItBegan(int tick, Verdict verdict) {
        Scripts script = stays(100, within(250))
                .becomes("draws back", when(step("DRAWING_BACK")), within(50), after(0, "stays"));

        Finding finding = judge(
                script, struck(200).real(CURRENT, at -> at < 70 ? 100 : 99).step(tick, "DRAWING_BACK"));

        assertEquals(verdict, finding.verdict());
    }

    @ParameterizedTest
    @CsvSource({
        "90, 'reach.current below 1.00 A from +0 ms on, until +250.0 ms'",
        "200, reach.current below 1.00 A from +0 ms on"
    })
    void tellsHowLongItHeld(int broken, String reached) {
        Finding finding = judge(stays(100, within(0)), struck(200).real(CURRENT, tick -> tick < broken ? 99 : 100));

        assertEquals(reached, text(finding, "reached"));
    }

    @Test
    void whatNeverHeldIsToldByItsLastReadingOfTheWindow() {
        Finding finding = judge(stays(100, within(250)), struck(200).real(CURRENT, tick -> 100 + tick));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals("it never held: reach.current 1.90 A at +250.0 ms", text(finding, "but was"));
        assertEquals("tick 90", text(finding, "trace"));
        assertEquals(OptionalLong.of(-100_000), finding.marginMicros());
    }

    @Test
    void aTryThatWasTooShortIsToldWithTheTickThatBrokeIt() {
        Finding finding =
                judge(stays(100, within(0)), struck(200).real(CURRENT, tick -> tick >= 55 && tick < 70 ? 150 : 99));

        assertEquals(
                "it held from +0 ms on, but only for 75.0 ms: reach.current 1.50 A at +75.0 ms",
                text(finding, "but was"));
        assertEquals("tick 55", text(finding, "trace"));
    }

    @Test
    void ofTriesOfTheSameLengthTheFirstIsTold() {
        Finding finding = judge(
                stays(100, within(250)),
                struck(200).real(CURRENT, tick -> (tick >= 45 && tick < 60) || (tick >= 70 && tick < 85) ? 99 : 150));

        assertEquals(
                "it held from +25.0 ms on, but only for 75.0 ms: reach.current 1.50 A at +100.0 ms",
                text(finding, "but was"));
    }

    /** The window closes in tick 90: what was not seen of that tick may still have been the begin. */
    @ParameterizedTest
    @CsvSource({"90, INCONCLUSIVE", "91, FAIL"})
    void whatNeverHeldIsSettledOnceTheWindowHasClosed(int ticks, Verdict verdict) {
        Finding finding = judge(stays(100, within(250)), struck(ticks).real(CURRENT, tick -> 100));

        assertEquals(verdict, finding.verdict());
    }

    /** Its best robustness is that of the begin in the very last tick of the trace, as far as it was seen. */
    @Test
    void theBestTryOfAMissMayBeginInTheLastTick() {
        Finding finding = judge(stays(100, within(250)), struck(91).real(CURRENT, tick -> tick == 90 ? 105 : 150));

        assertEquals("-0.05 A", value(finding));
    }

    /** From 80 ms to 250 ms are ticks 56 to 90, and 50 ms are ten ticks: only the whole eleven ticks count. */
    @ParameterizedTest
    @CsvSource({"56, -0.05 A", "90, -0.05 A", "55, -0.50 A", "91, -0.50 A"})
    void theBestTryOfAMissMayBeginOnEitherEdgeOfTheWindow(int from, String value) {
        Finding finding = judge(
                stays(50, within(80, 250)),
                struck(200).real(CURRENT, tick -> tick >= from && tick <= from + 10 ? 105 : 150));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals(value, value(finding));
    }

    @Test
    void aMissByNothingHasAMarginOfNothing() {
        Finding finding = judge(stays(100, within(250)), struck(200).real(CURRENT, tick -> 100));

        assertEquals("+0.00 A", value(finding));
    }

    /** The end is written to lie 100 ms behind the fault, within the window: ticks behind it are no try. */
    @Test
    void aTryBehindTheScriptsEndIsNoneThatCounts() {
        Finding finding = judge(
                settlesToTheEnd(within(250)).end(100, INJECTION), struck(200).real(CURRENT, tick -> 120));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals("-0.18 A", value(finding));
    }

    @Test
    void theClosestReadingMayBeThatOfTheLastTickOfAll() {
        Finding finding = judge(stays(100, within(0)), struck(61).real(CURRENT, tick -> tick == 60 ? 93 : 10));

        assertEquals("reach.current 0.93 A at +100.0 ms (0.07 A to spare)", text(finding, "closest"));
    }

    @Test
    void ofEquallyCloseReadingsTheFirstIsTold() {
        Finding finding =
                judge(stays(100, within(0)), struck(200).real(CURRENT, tick -> tick == 50 || tick == 55 ? 93 : 10));

        assertEquals("reach.current 0.93 A at +50.0 ms (0.07 A to spare)", text(finding, "closest"));
    }

    /** The record of tick 43 speaks for ticks 40 to 43; the anchor is tick 41. */
    @Test
    void aPeakOfARecordThatBeginsBeforeTheAnchorMayLieBeforeIt() {
        SyntheticTrace trace = new SyntheticTrace(200)
                .period(4)
                .told(POSITION, tick -> 1)
                .on(41, 0)
                .real(CURRENT, tick -> tick == 40 ? 150 : 50);

        Finding finding = judge(stays(100, within(0)), trace);

        assertEquals(Verdict.INCONCLUSIVE, finding.verdict());
        assertEquals("not known: records do not tell, in ticks 41 to 42", text(finding, "but was"));
        assertEquals("tick 41", text(finding, "trace"));
    }

    @Test
    void namesTheRecordsThatAreMissingOfTheTime() {
        Finding finding = judge(stays(100, within(0)), struck(200).loseTicks(50, 52));

        assertEquals("not known: records of ticks 50 to 52 are missing", text(finding, "but was"));
        assertEquals("tick 50", text(finding, "trace"));
    }

    /** Ticks 42 and 43 are lost, and it did not hold in tick 45: no try can have begun with them. */
    @Test
    void doesNotBlameRecordsThatNoTryHangsOnWhereTheTraceEndsTooSoon() {
        SyntheticTrace trace = struck(70).loseTicks(42, 43).real(CURRENT, tick -> tick < 46 ? 100 : 99);

        Finding finding = judge(stays(200, within(250)), trace);

        assertEquals("not judged to its end: what counts of the trace ends at +145.0 ms", text(finding, "but was"));
        assertEquals("tick 69", text(finding, "trace"));
    }

    @Test
    void doesNotBlameLostRecordsWhereItMayOnlyBeginBehindTheEndOfTheTrace() {
        SyntheticTrace trace = struck(70).loseTicks(50, 52).real(CURRENT, tick -> 100);

        Finding finding = judge(stays(100, within(250)), trace);

        assertEquals(Verdict.INCONCLUSIVE, finding.verdict());
        assertEquals("not judged to its end: what counts of the trace ends at +145.0 ms", text(finding, "but was"));
    }

    /** A record lost in the time of the first try that may have lasted is what leaves it open, not one before it. */
    @Test
    void namesWhatIsMissingOfTheFirstTryThatMayHaveLasted() {
        SyntheticTrace trace = struck(200)
                .loseTicks(42, 42)
                .loseTicks(60, 61)
                .real(CURRENT, tick -> tick < 50 || tick > 75 ? 100 : 99);

        Finding finding = judge(stays(100, within(100)), trace);

        assertEquals("not known: records of ticks 60 to 61 are missing", text(finding, "but was"));
        assertEquals("tick 60", text(finding, "trace"));
    }

    /** Tick 60 lies between the records of ticks 59 and 63, so that it is not known when it was. */
    @Test
    void aBreakWhoseTimeIsNotKnownSettlesNothingAndIsNotTheTracesEnd() {
        SyntheticTrace trace = new SyntheticTrace(200)
                .period(4)
                .told(POSITION, tick -> 1)
                .on(43, 0)
                .real(CURRENT, tick -> tick < 60 ? 99 : 100);

        Finding finding = judge(stays(85, within(0)), trace);

        assertEquals(Verdict.INCONCLUSIVE, finding.verdict());
        assertEquals("not known: records do not tell, in tick 43", text(finding, "but was"));
    }

    @Test
    void withoutTheMomentThatItCountsFromItIsNotJudged() {
        Scripts script = new Scripts()
                .becomes("draws back", when(step("DRAWING_BACK")), within(50), BEGIN)
                .expect(at -> new Expectation.Stays(
                        at,
                        "stays",
                        when(term(CURRENT, Relation.BELOW, 100)),
                        1000,
                        within(0),
                        after(0, "draws back")));

        Finding finding = judge(script, struck(200));

        assertEquals("not judged: its anchor \"draws back\" was not met", text(finding, "but was"));
        assertEquals("", text(finding, "trace"));
    }

    private static String value(Finding finding) {
        Optional<ValueMargin> margin = finding.marginValue();
        return margin.map(ValueMargin::show).orElse("");
    }

    private static String text(Finding finding, String label) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(label))
                .map(Fact::text)
                .collect(Collectors.joining("; "));
    }
}
