package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.place;
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
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.SyntheticTrace;

/** Margins in time and in value of every kind of expectation. Ticks are 5 ms apart and the fault strikes in tick 40. */
class MarginTests {
    private static final int STRIKE = 40;
    private static final OptionalLong NONE = OptionalLong.empty();

    private static SyntheticTrace struck() {
        return new SyntheticTrace(200)
                .step(20, "REACHING")
                .told(POSITION, tick -> 1)
                .on(STRIKE, 0);
    }

    private static Judgement whole(Scripts script, SyntheticTrace trace) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(100));
    }

    private static Finding judge(Scripts script, SyntheticTrace trace) {
        return whole(script, trace).findings().get(script.size() - 1);
    }

    /** From 50 ms to 100 ms after the fault are ticks 50 to 60. */
    private static Stretch window() {
        return new Stretch(INJECTION, Optional.of(within(50, 100)), Optional.empty());
    }

    private static Condition easy() {
        return when(term(CURRENT, Relation.BELOW, 100));
    }

    private static SyntheticTrace broken(IntPredicate where) {
        return struck().real(CURRENT, tick -> where.test(tick) ? 100 : 99);
    }

    private static Stream<Arguments> breaks() {
        return Stream.of(
                Arguments.of("61", List.of(61), Verdict.PASS, OptionalLong.of(5000)),
                Arguments.of("49", List.of(49), Verdict.PASS, OptionalLong.of(5000)),
                Arguments.of("both sides", List.of(45, 63), Verdict.PASS, OptionalLong.of(15_000)),
                Arguments.of("far behind", List.of(100, 101), Verdict.PASS, OptionalLong.of(200_000)),
                Arguments.of("before the anchor", List.of(39), Verdict.PASS, NONE),
                Arguments.of("at the anchor", List.of(40), Verdict.PASS, OptionalLong.of(50_000)),
                Arguments.of("nowhere", List.of(), Verdict.PASS, NONE),
                Arguments.of("on the first edge", List.of(50), Verdict.FAIL, OptionalLong.of(-1)),
                Arguments.of("near the begin", List.of(52), Verdict.FAIL, OptionalLong.of(-10_000)),
                Arguments.of("near the end", List.of(58), Verdict.FAIL, OptionalLong.of(-10_000)),
                Arguments.of("two ticks", List.of(53, 54), Verdict.FAIL, OptionalLong.of(-20_000)),
                Arguments.of(
                        "throughout",
                        IntStream.range(50, 61).boxed().toList(),
                        Verdict.FAIL,
                        OptionalLong.of(-50_000)));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("breaks")
    void aWindowTellsHowFarItsNearerEdgeCouldBeMovedOrWouldHaveToBe(
            String name, List<Integer> ticks, Verdict verdict, OptionalLong margin) {
        Condition hard = when(term(CURRENT, Relation.AT_LEAST, 100));
        Condition.Compares peak = (Condition.Compares) term(CURRENT, Relation.BELOW, 100);
        List<Scripts> ways = List.of(
                new Scripts().expect(at -> new Expectation.Always(at, "it", easy(), window())),
                new Scripts().expect(at -> new Expectation.Never(at, "it", hard, window())),
                new Scripts().expect(at -> new Expectation.Peak(at, "it", peak, window())));
        for (Scripts script : ways) {
            Finding finding = judge(script, broken(ticks::contains));

            assertEquals(verdict, finding.verdict());
            assertEquals(margin, finding.marginMicros());
        }
    }

    @ParameterizedTest
    @CsvSource({"50, 53, 100, 100, -20000, '20.0 ms, the longest of 2 times'", "50, 50, 50, 50, -5000, 5.0 ms"})
    void whereNoTimeBoundsTheStretchABreakIsAsBadAsItIsLong(
            int from, int to, int from2, int to2, long margin, String lasted) {
        Scripts script = new Scripts().always(easy()).end(800, BEGIN);

        Finding finding = judge(script, broken(tick -> (tick >= from && tick <= to) || (tick >= from2 && tick <= to2)));

        assertEquals(OptionalLong.of(margin), finding.marginMicros());
        assertEquals(lasted, fact(finding, "lasted"));
    }

    private static String fact(Finding finding, String label) {
        return finding.facts().stream()
                .filter(one -> one.label().equals(label))
                .map(Fact::text)
                .reduce((one, other) -> one + "; " + other)
                .orElse("");
    }

    @ParameterizedTest
    @CsvSource({"62, PASS, 10000", "47, PASS, 15000", "55, FAIL, -25000", "52, FAIL, -10000", "39, PASS, "})
    void aReportOutsideOfTheWindowTellsHowNearItWas(int tick, Verdict verdict, Long margin) {
        Scripts script =
                new Scripts().expect(at -> new Expectation.MustNotFire(at, "quiet", FS_01, Optional.of(window())));
        SyntheticTrace trace = tick < STRIKE
                ? new SyntheticTrace(200)
                        .step(20, "REACHING")
                        .told(POSITION, at -> 1)
                        .answered(tick, 1)
                        .on(STRIKE, 0)
                : struck().answered(tick, 1);

        Finding finding = judge(script, trace);

        assertEquals(verdict, finding.verdict());
        assertEquals(margin == null ? NONE : OptionalLong.of(margin), finding.marginMicros());
    }

    @Test
    void aReportHasNoLengthSoThatWithoutAWindowItIsAMissWithoutASize() {
        Scripts script = new Scripts().mustNotFire(FS_01).end(800, BEGIN);

        Finding finding = judge(script, struck().answered(60, 1));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals(NONE, finding.marginMicros());
    }

    @ParameterizedTest
    @CsvSource({
        "0, 1, 2, FAIL, -1",
        "1, 1, 2, PASS, 0",
        "2, 1, 2, PASS, 0",
        "3, 1, 2, FAIL, -1",
        "2, 1, 4, PASS, 1",
        "4, 1, , PASS, 3",
        "0, 2, , FAIL, -2",
        "4, 0, 1, FAIL, -3"
    })
    void howOftenSomethingCameAboutHasAMarginInTimes(int times, int least, Integer most, Verdict verdict, long margin) {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Times(
                        at,
                        "often",
                        when(term(CURRENT, Relation.AT_LEAST, 100)),
                        least,
                        most == null ? OptionalInt.empty() : OptionalInt.of(most),
                        window()));

        Finding finding = judge(script, broken(tick -> tick > 50 && tick <= 50 + 2 * times && tick % 2 == 1));

        assertEquals(verdict, finding.verdict());
        assertEquals(margin, finding.marginValue().orElseThrow().steps());
        assertEquals("times", finding.marginValue().orElseThrow().unit());
    }

    @ParameterizedTest
    @CsvSource({"54, PASS, 20000", "50, PASS, 0", "48, FAIL, -10000"})
    void anOrderTellsHowFarApartItsNearestMomentsWere(int drawsBack, Verdict verdict, long margin) {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION)
                .expect(at -> new Expectation.Order(at, "order", List.of(after(0, "sees it"), after(1, "draws back"))));
        SyntheticTrace trace = drawsBack < 50
                ? struck().step(drawsBack, "DRAWING_BACK").answered(50, 2)
                : struck().answered(50, 2).step(drawsBack, "DRAWING_BACK");

        Finding finding = judge(script, trace);

        assertEquals(verdict, finding.verdict());
        assertEquals(OptionalLong.of(margin), finding.marginMicros());
    }

    @ParameterizedTest
    @CsvSource({"2, PASS, 1", "3, PASS, 0", "5, FAIL, -2", "-4, FAIL, -1"})
    void whatIsToldHasAMarginToWhatIsReal(int apart, Verdict verdict, long margin) {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Always(
                        at, "agrees", when(new Condition.Agrees(place(9), POSITION, 3)), window()));

        Finding finding = judge(script, struck().real(POSITION, tick -> tick == 55 ? 1 - apart : 1));

        assertEquals(verdict, finding.verdict());
        assertEquals(margin, finding.marginValue().orElseThrow().steps());
    }

    @ParameterizedTest
    @CsvSource({"false, 5, 3, PASS, 2", "false, 5, 5, FAIL, 0", "false, 5, 9, FAIL, -4"})
    void aChangeHasAMarginToHowMuchItMayBe(boolean more, int limit, int change, Verdict verdict, long margin) {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Always(
                        at,
                        "still",
                        when(new Condition.Moves(place(9), CURRENT, Source.REAL, more, limit, 2)),
                        window()));

        Finding finding = judge(script, struck().real(CURRENT, tick -> tick >= 55 ? change : 0));

        assertEquals(verdict, finding.verdict());
        assertEquals(margin, finding.marginValue().orElseThrow().steps());
    }

    @ParameterizedTest
    @CsvSource({"50, PASS, 10", "43, PASS, 3", "60, PASS, 0", "62, FAIL, -2", "35, FAIL, -5"})
    void aBandHasTheMarginToItsNearerEdge(int reading, Verdict verdict, long margin) {
        Condition band = when(term(CURRENT, Relation.AT_LEAST, 40), term(CURRENT, Relation.AT_MOST, 60));
        Scripts script = new Scripts()
                .expect(at ->
                        new Expectation.Settles(at, "settles", band, OptionalLong.of(50_000), within(100), INJECTION));

        Finding finding = judge(script, struck().real(CURRENT, tick -> reading));

        assertEquals(verdict, finding.verdict());
        assertEquals(margin, finding.marginValue().orElseThrow().steps());
    }

    @Test
    void readingsOfTwoKindsHaveNoCommonMargin() {
        Condition both = when(term(CURRENT, Relation.AT_LEAST, 40), term(VOLTAGE, Relation.AT_LEAST, 700));
        Scripts script = new Scripts().expect(at -> new Expectation.Always(at, "both", both, window()));

        assertEquals(
                Optional.empty(),
                judge(script, struck().real(CURRENT, tick -> 50)).marginValue());
    }

    /** For 50 ms it must be 100 at least: eleven ticks. The best try has 98 once, all others less. */
    @Test
    void whatDidNotStayIsShortByTheWorstReadingOfItsBestTry() {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Stays(
                        at, "stays", when(term(CURRENT, Relation.AT_LEAST, 100)), 50_000, within(100), INJECTION));

        Finding finding =
                judge(script, struck().real(CURRENT, tick -> tick < 45 || tick > 55 ? 20 : tick == 50 ? 98 : 120));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals(-2, finding.marginValue().orElseThrow().steps());
    }

    @Test
    void theLeastOfEachChannelIsTheScriptsThoseThatWereMissedFirst() {
        Scripts script = new Scripts()
                .always(when(term(VOLTAGE, Relation.AT_LEAST, 700)))
                .always(when(term(CURRENT, Relation.BELOW, 200)))
                .always(when(term(CURRENT, Relation.BELOW, 60)))
                .always(when(term(VOLTAGE, Relation.AT_LEAST, 900)))
                .end(800, BEGIN);

        Judgement judgement = whole(script, struck().real(CURRENT, tick -> 99).real(VOLTAGE, tick -> 1000));

        assertEquals(
                List.of("reach.current -39", "battery.voltage 100"),
                judgement.valueMargins().stream()
                        .map(one -> one.channel() + " " + one.steps())
                        .toList());
    }

    /** FS-02 answers with 30 ms to spare, but the step comes 20 ms late. */
    @Test
    void ofAFailTheHeadlineIsWhatWasMissed() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION);

        Judgement late = whole(script, struck().answered(84, 2).step(94, "DRAWING_BACK"));
        Judgement never = whole(script, struck().answered(84, 2));

        assertEquals(OptionalLong.of(-20_000), late.marginMicros());
        assertEquals(NONE, never.marginMicros());
    }

    @Test
    void detectionResponseAndRecoveryHaveTheirTicks() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .becomes("home", when(step("GIVEN_UP")), within(500), INJECTION);

        Split split = whole(
                        script,
                        struck().answered(60, 2).step(64, "DRAWING_BACK").step(90, "GIVEN_UP"))
                .split();

        assertEquals(Optional.of(new Reached(60, 300_000, 100_000)), split.detected());
        assertEquals(Optional.of(new Reached(64, 320_000, 120_000)), split.begun());
        assertEquals(Optional.of(new Reached(90, 450_000, 250_000)), split.recovered());
    }

    @Test
    void whereNoFailSafeMustAnswerTheResponseBeginsWithTheFirstStepBehindTheStrike() {
        Scripts script = new Scripts().becomes("home", when(step("GIVEN_UP")), within(500), INJECTION);

        Split split = whole(script, struck().step(64, "DRAWING_BACK").step(90, "GIVEN_UP"))
                .split();

        assertEquals(Optional.empty(), split.detected());
        assertEquals(Optional.of(new Reached(64, 320_000, 120_000)), split.begun());
    }

    @Test
    void whereTheFailSafeStaysSilentNothingCountsAsItsResponse() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .becomes("home", when(step("GIVEN_UP")), within(500), INJECTION);

        assertEquals(Split.NONE, whole(script, struck().step(64, "GIVEN_UP")).split());
    }
}
