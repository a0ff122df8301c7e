package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import java.util.OptionalLong;
import java.util.function.IntUnaryOperator;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Expectation.Window;
import snagbench.bench.trace.SyntheticTrace;

/**
 * What is told of something that is waited for. Ticks are 5 ms apart; the fault strikes in tick 40, at 200 ms, so that 80 ms
 * behind it is tick 56 and 250 ms is tick 90.
 */
class AwaitedReportTests {
    private static final int STRIKE = 40;

    private static SyntheticTrace struck(int ticks) {
        return new SyntheticTrace(ticks)
                .step(10, "REACHING")
                .told(POSITION, tick -> 1)
                .on(STRIKE, 0);
    }

    private static Finding judge(Scripts script, SyntheticTrace trace) {
        return finding(0, script, trace);
    }

    private static Finding finding(int index, Scripts script, SyntheticTrace trace) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(100))
                .findings()
                .get(index);
    }

    private static Scripts seesIt(Window within) {
        return new Scripts().answeredBy("sees it", FS_02, within, INJECTION);
    }

    private static Scripts drawsBackAfter(Scripts script) {
        return script.becomes("draws back", when(step("DRAWING_BACK")), within(500), after(0, "sees it"));
    }

    private static Scripts eases(Relation relation, Window within) {
        return new Scripts().becomes("eases", when(term(CURRENT, relation, 100)), within, INJECTION);
    }

    /** What was lost in tick 50 cannot have been a report of FS-02, since its next one tells that it was its first. */
    @ParameterizedTest
    @CsvSource({"false", "true"})
    void aReportsCountTellsThatNoneWasLostBeforeIt(boolean oneBefore) {
        SyntheticTrace trace = new SyntheticTrace(200).told(POSITION, tick -> 1);
        if (oneBefore) {
            trace.answered(20, 2);
        }
        trace.on(STRIKE, 0).answered(50, 1).answered(60, 2).step(70, "DRAWING_BACK");

        Finding finding = finding(1, drawsBackAfter(seesIt(within(250))), trace.loseEvent(oneBefore ? 3 : 2));

        assertEquals(Verdict.PASS, finding.verdict());
    }

    /** The second report was late, and tells by its count that there was a first one, which was lost in tick 50. */
    @Test
    void aReportThatWasLostCountsFromWhatTheNextOneTells() {
        SyntheticTrace trace = struck(200).answered(50, 2).answered(95, 2).loseEvent(3);

        Finding finding = judge(seesIt(within(250)), trace);

        assertEquals(Verdict.PASS, finding.verdict());
        assertEquals("FS-02 answers unseen, at +50.0 ms at the latest (200.0 ms to spare)", text(finding, "reached"));
        assertEquals(OptionalLong.of(200_000), finding.marginMicros());
        assertEquals(OptionalLong.empty(), finding.metTick());
    }

    @Test
    void aReportThatWasLostBeforeTheWindowIsTooEarly() {
        SyntheticTrace trace = new SyntheticTrace(200)
                .told(POSITION, tick -> 1)
                .answered(20, 2)
                .on(STRIKE, 0)
                .answered(50, 2)
                .answered(60, 2)
                .loseEvent(3);

        Finding finding = judge(seesIt(within(80, 250)), trace);

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals("it came unseen, before the window", text(finding, "but was"));
    }

    /** Reports may have been lost both before the fault and between it and the one that was seen. */
    @Test
    void aReportThatMayNotBeTheFirstIsToldAsTheLatest() {
        SyntheticTrace trace = new SyntheticTrace(200)
                .told(POSITION, tick -> 1)
                .answered(20, 2)
                .on(STRIKE, 0)
                .answered(50, 1)
                .answered(60, 2)
                .loseEvent(1)
                .loseEvent(3);

        Scripts script = drawsBackAfter(seesIt(within(250)));
        Finding finding = judge(script, trace);

        assertEquals(Verdict.PASS, finding.verdict());
        assertEquals("FS-02 answers at +100.0 ms at the latest (150.0 ms to spare)", text(finding, "reached"));
        assertEquals(
                "not judged: it is not known in which tick its anchor \"sees it\" was met",
                text(finding(1, script, trace), "but was"));
    }

    @Test
    void anAnswerThatMayHaveBeenLostIsLookedForFromItsAnchorOn() {
        SyntheticTrace trace = new SyntheticTrace(200)
                .told(POSITION, tick -> 1)
                .answered(20, 1)
                .on(STRIKE, 0)
                .answered(60, 1);

        Finding finding = judge(seesIt(within(250)), trace.loseEvent(1).loseEvent(3));

        assertEquals(Verdict.INCONCLUSIVE, finding.verdict());
        assertEquals("not known: events of tick 60 may be missing", text(finding, "but was"));
        assertEquals("tick 40", text(finding, "trace"));
    }

    @ParameterizedTest
    @CsvSource({"false, FAIL", "true, PASS"})
    void theReportThatMeetsAnAnchorIsNotTheNextOne(boolean again, Verdict verdict) {
        Scripts script = seesIt(within(250)).answeredBy("again", FS_02, within(250), after(0, "sees it"));
        SyntheticTrace trace = struck(200).answered(60, 2);

        assertEquals(
                verdict,
                finding(1, script, again ? trace.answered(60, 2) : trace).verdict());
    }

    /** The first record behind the window is that of tick 91. */
    @ParameterizedTest
    @CsvSource({
        "30, 'FS-02 silent, step REACHING at +255.0 ms'",
        "90, 'FS-02 silent, FS-01 had answered, step REACHING at +255.0 ms'",
        "91, 'FS-02 silent, FS-01 had answered, step REACHING at +255.0 ms'",
        "92, 'FS-02 silent, step REACHING at +255.0 ms'"
    })
    void whatAnsweredInsteadIsToldAsOfTheFirstRecordBehindTheWindow(int other, String was) {
        SyntheticTrace trace = new SyntheticTrace(200).step(10, "REACHING").told(POSITION, tick -> 1);
        if (other < STRIKE) {
            trace.answered(other, 1).on(STRIKE, 0);
        } else {
            trace.on(STRIKE, 0).answered(other, 1);
        }

        assertEquals(was, text(judge(seesIt(within(250)), trace.answered(95, 2)), "but was"));
    }

    @ParameterizedTest
    @CsvSource({"91, FS-02 had answered 1 of 2 times", "92, FS-02 silent"})
    void howOftenItHadAnsweredIsToldAsOfTheFirstRecordBehindTheWindow(int first, String was) {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.AnsweredBy(at, "twice", FS_02, within(250), INJECTION, false, 2));

        assertEquals(
                was + ", step REACHING at +255.0 ms",
                text(judge(script, struck(200).answered(first, 2)), "but was"));
    }

    /** There is no record behind the window, so that its last tick tells what there was. */
    @Test
    void whereTheTraceEndsWithTheWindowItsLastTickIsTold() {
        Finding finding = judge(seesIt(within(250)), struck(91));

        assertEquals("FS-02 silent, step REACHING at +250.0 ms", text(finding, "but was"));
        assertEquals("tick 90", text(finding, "trace"));
    }

    @Test
    void anotherReportThatCameFirstSpoilsAnAnswerThoughEventsAreMissing() {
        Scripts script = drawsBackAfter(new Scripts().answeredByNoOther("sees it", FS_02, within(250)));
        SyntheticTrace trace =
                struck(200).answered(50, 1).answered(55, 1).answered(60, 2).loseEvent(4);

        Finding finding = judge(script, trace);

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals("FS-01 answered before it, at +50.0 ms", text(finding, "but was"));
        assertEquals("not judged: its anchor \"sees it\" was not met", text(finding(1, script, trace), "but was"));
    }

    @Test
    void whereAnotherReportMayHaveBeenLostItIsNotKnownWhetherItSpoiltTheAnswer() {
        Scripts script = drawsBackAfter(new Scripts().answeredByNoOther("sees it", FS_02, within(250)));
        SyntheticTrace trace =
                struck(200).answered(55, 1).answered(60, 2).answered(70, 1).loseEvent(3);

        Finding finding = judge(script, trace);

        assertEquals(Verdict.INCONCLUSIVE, finding.verdict());
        assertEquals(
                "not known whether another fail-safe answered before it: events of tick 55 may be missing",
                text(finding, "but was"));
        assertEquals(
                "not judged: its anchor \"sees it\" was not seen to be met",
                text(finding(1, script, trace), "but was"));
    }

    @Test
    void aRestartOfWhichTheHostHeardNothingMoreIsLateByWhatIsCertain() {
        Scripts script = new Scripts().expect(at -> new Expectation.Restart(at, "restarts", within(250), INJECTION));

        Finding finding = judge(script, struck(200).restartsAfter(91));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals("the controller restarts behind +255.0 ms (5.0 ms late)", text(finding, "reached"));
        assertEquals(OptionalLong.of(-5000), finding.marginMicros());
    }

    @Test
    void aRestartIsTimedByTheHostOnBothSides() {
        Scripts script = new Scripts().expect(at -> new Expectation.Restart(at, "restarts", within(250), INJECTION));

        Finding passed = judge(script, struck(200).restartsAfter(60, 400_000));
        Finding open = judge(script, struck(200).restartsAfter(60, 700_000));

        assertEquals(
                "the controller restarts between +100.0 ms and +200.0 ms (50.0 ms to spare)", text(passed, "reached"));
        assertEquals("tick 60", text(open, "trace"));
    }

    /** It comes about in tick 60; the window is from tick 56 to tick 90. */
    @ParameterizedTest
    @CsvSource({"90, 91, 200", "90, 91, 91"})
    void theBestReadingOfAWindowIsThatOfItsLastTickAtTheLatest(int inside, int outside, int ticks) {
        IntUnaryOperator current = tick -> tick < 60 ? 150 : tick == inside ? 90 : tick == outside ? 50 : 99;

        Finding finding =
                judge(eases(Relation.BELOW, within(250)), struck(ticks).real(CURRENT, current));

        assertEquals(Verdict.PASS, finding.verdict());
        assertEquals("+0.10 A", value(finding));
    }

    @Test
    void theBestReadingOfAMissIsThatOfItsFirstTickAtTheEarliest() {
        IntUnaryOperator current = tick -> tick == 55 ? 101 : tick == 56 ? 105 : 150;

        Finding finding =
                judge(eases(Relation.BELOW, within(80, 250)), struck(200).real(CURRENT, current));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals("reach.current 1.05 A at +80.0 ms (0.05 A short)", text(finding, "closest"));
        assertEquals("-0.05 A", value(finding));
    }

    @Test
    void theBestReadingOfAMissMayBeThatOfTheTickOfArming() {
        SyntheticTrace trace =
                new SyntheticTrace(200).told(POSITION, tick -> 1).on(0, 0).real(CURRENT, tick -> tick == 0 ? 105 : 150);

        Finding finding = judge(eases(Relation.BELOW, within(250)), trace);

        assertEquals("reach.current 1.05 A at +0 ms (0.05 A short)", text(finding, "closest"));
    }

    @Test
    void aReadingOnTheLimitKeepsAtMostAndMissesBelowByNothing() {
        SyntheticTrace trace = struck(200).real(CURRENT, tick -> tick < 60 ? 150 : 100);

        Finding atMost = judge(eases(Relation.AT_MOST, within(250)), trace);
        Finding below = judge(eases(Relation.BELOW, within(250)), trace);

        assertEquals(Verdict.PASS, atMost.verdict());
        assertEquals("+0.00 A", value(atMost));
        assertEquals("reach.current 1.00 A at +100.0 ms (0.00 A short)", text(below, "closest"));
        assertEquals("+0.00 A", value(below));
    }

    /** Of a record of four ticks a pass tells what is certain of its reading, and a miss how good it can have been. */
    @Test
    void ofARecordOfSeveralTicksAMarginIsWhatIsCertain() {
        IntUnaryOperator eased = tick -> tick < 60 ? 150 : tick == 70 ? 60 : 99;
        IntUnaryOperator strained = tick -> tick == 57 ? 105 : 150;

        Finding passed =
                judge(eases(Relation.BELOW, within(250)), struck(200).period(4).real(CURRENT, eased));
        Finding missed =
                judge(eases(Relation.BELOW, within(250)), struck(200).period(4).real(CURRENT, strained));

        assertEquals(Verdict.PASS, passed.verdict());
        assertEquals("+0.01 A", value(passed));
        assertEquals(Verdict.FAIL, missed.verdict());
        assertEquals("-0.05 A", value(missed));
    }

    private static String value(Finding finding) {
        return finding.marginValue().map(ValueMargin::show).orElse("");
    }

    private static String text(Finding finding, String label) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(label))
                .map(Fact::text)
                .collect(Collectors.joining("; "));
    }
}
