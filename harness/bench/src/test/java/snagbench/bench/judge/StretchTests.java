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
import static snagbench.bench.trace.SyntheticTrace.FS_01;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.wire.EventKind;

/** What is judged over a stretch, and counted, and ordered. Ticks are 5 ms apart and the fault strikes in tick 40. */
class StretchTests {
    private static final int STRIKE = 40;

    private static SyntheticTrace struck() {
        return new SyntheticTrace(200)
                .step(20, "REACHING")
                .told(POSITION, tick -> 1)
                .on(STRIKE, 0);
    }

    private static Finding judge(Scripts script, SyntheticTrace trace) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(100))
                .findings()
                .get(script.size() - 1);
    }

    private static Stretch window(long least, long most) {
        return new Stretch(INJECTION, Optional.of(within(least, most)), Optional.empty());
    }

    private static Stretch upTo(Anchor to) {
        return new Stretch(INJECTION, Optional.empty(), Optional.of(to));
    }

    private static Condition easy() {
        return when(term(CURRENT, Relation.BELOW, 100));
    }

    /** From 50 ms to 100 ms after the fault are ticks 50 to 60. */
    @ParameterizedTest
    @CsvSource({"49, PASS", "50, FAIL", "60, FAIL", "61, PASS"})
    void aLimitInAWindowHoldsInAllOfItsTicks(int broken, Verdict verdict) {
        Scripts script = new Scripts().expect(at -> new Expectation.Always(at, "always", easy(), window(50, 100)));

        assertEquals(
                verdict,
                judge(script, struck().real(CURRENT, tick -> tick == broken ? 100 : 99))
                        .verdict());
    }

    @ParameterizedTest
    @CsvSource({"49, PASS", "50, FAIL", "60, FAIL", "61, PASS"})
    void whatMustNeverBeInAWindowIsInNoneOfItsTicks(int tick, Verdict verdict) {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Never(at, "never", when(step("DRAWING_BACK")), window(50, 100)));
        SyntheticTrace trace = struck().step(tick, "DRAWING_BACK").step(tick + 1, "REACHING");

        assertEquals(verdict, judge(script, trace).verdict());
    }

    /** The tick of what it ends with does not belong to it. */
    @ParameterizedTest
    @CsvSource({"39, PASS", "40, FAIL", "59, FAIL", "60, PASS"})
    void aLimitBetweenTwoMomentsHoldsUpToTheSecond(int broken, Verdict verdict) {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .expect(at -> new Expectation.Always(at, "always", easy(), upTo(after(0, "sees it"))));

        assertEquals(
                verdict,
                judge(script, struck().answered(60, 2).real(CURRENT, tick -> tick == broken ? 100 : 99))
                        .verdict());
    }

    @Test
    void aStretchWithoutATickSettlesNothing() {
        Scripts between = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .expect(at -> new Expectation.Always(
                        at,
                        "always",
                        easy(),
                        new Stretch(after(0, "sees it"), Optional.empty(), Optional.of(INJECTION))));
        Scripts narrow = new Scripts()
                .expect(at -> new Expectation.Always(
                        at,
                        "always",
                        easy(),
                        new Stretch(INJECTION, Optional.of(new Expectation.Window(51_000, 54_000)), Optional.empty())));

        assertEquals(
                Verdict.INCONCLUSIVE, judge(between, struck().answered(60, 2)).verdict());
        assertEquals(Verdict.INCONCLUSIVE, judge(narrow, struck()).verdict());
    }

    @Test
    void aStretchUpToWhatNeverCameSettlesNothing() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .expect(at -> new Expectation.Always(at, "always", easy(), upTo(after(0, "sees it"))));

        Finding finding = judge(script, struck());

        assertEquals(Verdict.INCONCLUSIVE, finding.verdict());
        assertEquals("not judged: its anchor \"sees it\" was not met", text(finding, "but was"));
    }

    @ParameterizedTest
    @CsvSource({"49, PASS", "50, FAIL", "60, FAIL", "61, PASS"})
    void aFailSafeMustNotFireInTheTicksOfAWindow(int tick, Verdict verdict) {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.MustNotFire(at, "quiet", FS_01, Optional.of(window(50, 100))));

        assertEquals(verdict, judge(script, struck().answered(tick, 1)).verdict());
    }

    @Test
    void theReportThatAStretchBeginsWithIsNotInIt() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .expect(at -> new Expectation.MustNotFire(
                        at,
                        "once only",
                        FS_02,
                        Optional.of(new Stretch(after(0, "sees it"), Optional.empty(), Optional.empty()))));

        assertEquals(Verdict.PASS, judge(script, struck().answered(60, 2)).verdict());
        assertEquals(
                Verdict.FAIL,
                judge(script, struck().answered(60, 2).answered(60, 2)).verdict());
    }

    @ParameterizedTest
    @CsvSource({"579, PASS, +0.01 A", "580, PASS, +0.00 A", "581, FAIL, -0.01 A"})
    void thePeakIsTold(int greatest, Verdict verdict, String margin) {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Peak(
                        at,
                        "peak",
                        new Condition.Compares(at, CURRENT, Source.REAL, Relation.AT_MOST, 580),
                        window(0, 300)));
        SyntheticTrace trace =
                struck().real(CURRENT, tick -> tick == 55 ? greatest - 100 : tick == 70 ? greatest : 200);

        Finding finding = judge(script, trace);

        assertEquals(verdict, finding.verdict());
        assertEquals(margin, finding.marginValue().orElseThrow().show());
        String shown = text(finding, verdict == Verdict.PASS ? "peak" : "but was");
        assertEquals(
                "reach.current " + CURRENT.show(greatest) + " at +150.0 ms", shown.substring(0, shown.indexOf(" (")));
    }

    @Test
    void aPeakBetweenRecordsIsThePeak() {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Peak(
                        at,
                        "peak",
                        new Condition.Compares(at, CURRENT, Source.REAL, Relation.AT_MOST, 580),
                        window(0, 300)));

        Finding finding = judge(script, struck().period(5).real(CURRENT, tick -> tick == 72 ? 575 : 200));

        // The strike is known from its event, the window's last tick from the record behind it.
        assertEquals(Verdict.PASS, finding.verdict());
        assertEquals("+0.05 A", finding.marginValue().orElseThrow().show());
    }

    @ParameterizedTest
    @CsvSource({"1, FAIL", "2, PASS", "3, PASS", "4, FAIL"})
    void howOftenAConditionComesAboutIsCounted(int times, Verdict verdict) {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Times(
                        at, "tries", when(step("DRAWING_BACK")), 2, OptionalInt.of(3), window(0, 500)));
        SyntheticTrace trace = struck();
        for (int i = 0; i < times; i++) {
            trace.step(50 + 10 * i, "DRAWING_BACK").step(51 + 10 * i, "REACHING");
        }

        Finding finding = judge(script, trace);

        assertEquals(verdict, finding.verdict());
        assertEquals(
                times == 1 ? "once" : times + " times", text(finding, verdict == Verdict.PASS ? "reached" : "but was"));
    }

    /** From the fault's tick 40 on for 100 ms are ticks 40 to 60. */
    @ParameterizedTest
    @CsvSource({"39, FAIL", "40, PASS", "60, PASS", "61, FAIL"})
    void whatComesAboutCountsInTheTicksOfTheStretch(int tick, Verdict verdict) {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Times(
                        at, "once", when(step("DRAWING_BACK")), 1, OptionalInt.of(1), window(0, 100)));

        assertEquals(verdict, judge(script, struck().step(tick, "DRAWING_BACK")).verdict());
    }

    @Test
    void reportsOfOneTickAreCountedEach() {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Times(
                        at, "thrice", when(new Condition.Answers(at, FS_02)), 3, OptionalInt.of(3), window(0, 500)));

        assertEquals(
                Verdict.PASS,
                judge(script, struck().answered(50, 2).answered(60, 2).answered(60, 2))
                        .verdict());
        assertEquals(
                Verdict.FAIL,
                judge(script, struck().answered(50, 2).answered(60, 2)).verdict());
    }

    @Test
    void aReportThatWasLostShowsInTheCountsOfTheOthers() {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Times(
                        at,
                        "at least thrice",
                        when(new Condition.Answers(at, FS_02)),
                        3,
                        OptionalInt.empty(),
                        window(0, 500)));
        SyntheticTrace trace =
                struck().answered(50, 2).answered(60, 2).answered(70, 2).loseEvent(4);

        assertEquals(Verdict.PASS, judge(script, trace).verdict());
    }

    /** The second answer counts; the fault strikes in tick 40 and 250 ms later is tick 90. */
    @ParameterizedTest
    @CsvSource({"89, PASS", "90, PASS", "91, FAIL"})
    void theNthAnswerIsInTimeUpToTheDeadline(int tick, Verdict verdict) {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.AnsweredBy(at, "twice", FS_02, within(250), INJECTION, false, 2));

        assertEquals(
                verdict,
                judge(script, struck().answered(30, 2).answered(60, 2).answered(tick, 2))
                        .verdict());
    }

    @ParameterizedTest
    @CsvSource({"89, PASS", "90, PASS", "91, FAIL"})
    void theNthTimeThatAStepIsEnteredIsInTimeUpToTheDeadline(int tick, Verdict verdict) {
        Scripts script = new Scripts()
                .expect(at ->
                        new Expectation.Becomes(at, "twice", when(step("DRAWING_BACK")), within(250), INJECTION, 2));

        assertEquals(
                verdict,
                judge(
                                script,
                                struck().step(50, "DRAWING_BACK")
                                        .step(55, "REACHING")
                                        .step(tick, "DRAWING_BACK"))
                        .verdict());
    }

    @Test
    void timesCountFromTheNthStrike() {
        Scripts script = new Scripts()
                .injectTimes(2)
                .answeredBy("sees it", FS_02, within(50), new Anchor.OfInjection(0, "injection 1", 2));
        SyntheticTrace trace = struck().event(100, EventKind.ENTRY_ON, 0, 2);

        assertEquals(
                Verdict.PASS,
                judge(script, trace.answered(60, 2).answered(110, 2)).verdict());
        assertEquals(
                Verdict.FAIL,
                judge(script, struck().event(100, EventKind.ENTRY_ON, 0, 2).answered(60, 2))
                        .verdict());
    }

    @Test
    void timesCountFromTheNthAnswer() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .becomes("gives up", when(step("GIVEN_UP")), within(50), new Anchor.OfExpectation(0, "sees it", 3));
        SyntheticTrace trace =
                struck().answered(60, 2).answered(80, 2).answered(100, 2).step(105, "GIVEN_UP");

        assertEquals(Verdict.PASS, judge(script, trace).verdict());
    }

    @ParameterizedTest
    @CsvSource({"59, FAIL", "60, PASS", "61, PASS"})
    void momentsMustComeInTheirOrderAndAStateMayFollowInTheTickOfAnAnswer(int drawsBack, Verdict verdict) {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION)
                .expect(at -> new Expectation.Order(
                        at, "order", List.of(INJECTION, after(0, "sees it"), after(1, "draws back"))));

        assertEquals(
                verdict,
                judge(script, struck().answered(60, 2).step(drawsBack, "DRAWING_BACK"))
                        .verdict());
    }

    @Test
    void anAnswerInTheTickOfAStateComesBeforeIt() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION)
                .expect(at -> new Expectation.Order(at, "order", List.of(after(1, "draws back"), after(0, "sees it"))));

        Finding finding = judge(script, struck().answered(60, 2).step(60, "DRAWING_BACK"));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals("\"sees it\" came no later than \"draws back\", in the same tick", text(finding, "but was"));
    }

    @Test
    void aReadingIsComparedWithItsValueAtTheStrike() {
        Condition drawnBack = when(new Condition.ComparesToStrike(
                Scripts.place(9),
                POSITION,
                Source.REAL,
                Relation.AT_MOST,
                new Anchor.OfInjection(0, "injection 1"),
                -100));
        Scripts script = new Scripts().becomes("drawn back", drawnBack, within(250), INJECTION);
        // 1234 at the strike; 1134 is reached in tick 50 and missed by a step in the other trace.
        SyntheticTrace reached = struck().real(POSITION, tick -> tick < 41 ? 1234 : tick < 50 ? 1135 : 1134);
        SyntheticTrace missed = struck().real(POSITION, tick -> tick < 41 ? 1234 : 1135);

        assertEquals(Verdict.PASS, judge(script, reached).verdict());
        Finding finding = judge(script, missed);
        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals("-0.1 mm", finding.marginValue().orElseThrow().show());
        assertEquals("reach.position 113.5 mm at +5.0 ms (0.1 mm short)", text(finding, "closest"));
    }

    @Test
    void aCrossingIsSeenInTheTickInWhichItIs() {
        Condition rises = when(new Condition.Crosses(Scripts.place(9), POSITION, Source.REAL, true, 1800));
        Scripts script = new Scripts().becomes("rises", rises, within(250), BEGIN);

        assertEquals(
                Verdict.PASS,
                judge(script, struck().real(POSITION, tick -> tick < 50 ? 1799 : 1800))
                        .verdict());
        assertEquals(
                Verdict.FAIL,
                judge(script, struck().real(POSITION, tick -> tick < 51 ? 1799 : 1800))
                        .verdict());
        assertEquals(
                Verdict.FAIL,
                judge(script, struck().real(POSITION, tick -> 1800)).verdict());
    }

    private static String text(Finding finding, String label) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(label))
                .map(Fact::text)
                .collect(Collectors.joining());
    }
}
