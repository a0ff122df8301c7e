package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.IntUnaryOperator;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Expectation.Window;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.SyntheticTrace;

/**
 * What is told of a limit over a stretch. Ticks are 5 ms apart; the fault strikes in tick 40, at 200 ms. Of records of four
 * ticks, that of tick 51 speaks for ticks 48 to 51, and so on; when the first three of them were is not known.
 */
class StretchReportTests {
    private static final int STRIKE = 40;

    private static SyntheticTrace struck(IntUnaryOperator current) {
        return new SyntheticTrace(200).told(POSITION, tick -> 1).on(STRIKE, 0).real(CURRENT, current);
    }

    private static Finding judge(Scripts script, SyntheticTrace trace) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(100))
                .findings()
                .get(script.size() - 1);
    }

    private static Stretch during(Window window, Anchor after) {
        return new Stretch(after, Optional.of(window), Optional.empty());
    }

    private static Scripts always(Window window, Anchor after) {
        Condition easy = when(term(CURRENT, Relation.BELOW, 100));
        return new Scripts().expect(at -> new Expectation.Always(at, "it", easy, during(window, after)));
    }

    private static Scripts never(Window window) {
        Condition hard = when(term(CURRENT, Relation.AT_LEAST, 100));
        return new Scripts().expect(at -> new Expectation.Never(at, "it", hard, during(window, INJECTION)));
    }

    private static Scripts peak(Window window) {
        Condition.Compares reading = (Condition.Compares) term(CURRENT, Relation.BELOW, 100);
        return new Scripts().expect(at -> new Expectation.Peak(at, "it", reading, during(window, INJECTION)));
    }

    @Test
    void aLimitIsToldByItsFirstBreakAndAPeakByItsWorst() {
        IntUnaryOperator current = tick -> tick == 50 ? 105 : tick == 60 ? 150 : 50;

        Finding limit = judge(always(within(100), INJECTION), struck(current));
        Finding peak = judge(peak(within(100)), struck(current));

        assertEquals("reach.current 1.05 A at +50.0 ms (0.05 A beyond the limit)", text(limit, "but was"));
        assertEquals("tick 50", text(limit, "trace"));
        assertEquals("reach.current 1.50 A at +100.0 ms (0.50 A beyond the limit)", text(peak, "but was"));
        assertEquals("tick 60", text(peak, "trace"));
        assertEquals("-0.50 A", value(limit));
        assertEquals("-0.50 A", value(peak));
    }

    @Test
    void aReadingOnALimitThatMustNotBeReachedIsAtTheLimit() {
        Finding finding = judge(always(within(100), INJECTION), struck(tick -> tick == 50 ? 100 : 50));

        assertEquals("reach.current 1.00 A at +50.0 ms (at the limit)", text(finding, "but was"));
        assertEquals("+0.00 A", value(finding));
    }

    @Test
    void ofReadingsThatCameEquallyCloseTheFirstIsTold() {
        IntUnaryOperator current = tick -> tick == 50 || tick == 55 ? 93 : 50;
        String closest = "reach.current 0.93 A at +50.0 ms (0.07 A to spare)";

        assertEquals(closest, text(judge(always(within(100), INJECTION), struck(current)), "closest"));
        assertEquals(closest, text(judge(never(within(100)), struck(current)), "closest"));
        assertEquals(closest, text(judge(peak(within(100)), struck(current)), "peak"));
    }

    @Test
    void readingsFromTheFirstTickOnNeedNoNote() {
        Finding finding = judge(always(within(100), INJECTION), struck(tick -> 50));

        assertEquals(Verdict.PASS, finding.verdict());
        assertEquals("", text(finding, "note"));
    }

    @Test
    void aBreakInTheTickOfArmingIsBeforeAWindowThatIsCountedFromThere() {
        Finding finding = judge(always(within(50, 100), BEGIN), struck(tick -> tick == 0 ? 100 : 50));

        assertEquals(Verdict.PASS, finding.verdict());
        assertEquals(OptionalLong.of(50_000), finding.marginMicros());
    }

    @Test
    void aLostRecordOfTheTickOfArmingSettlesNothing() {
        Finding finding = judge(always(within(100), BEGIN), struck(tick -> 50).loseTicks(0, 0));

        assertEquals(Verdict.INCONCLUSIVE, finding.verdict());
        assertEquals("not known: records of tick 0 are missing", text(finding, "but was"));
        assertEquals("tick 0", text(finding, "trace"));
    }

    @Test
    void namesAllThatIsMissingFromTheTickOfArmingOn() {
        Finding finding = judge(
                always(within(100), BEGIN), struck(tick -> 50).loseTicks(0, 0).loseTicks(5, 6));

        assertEquals("not known: records of tick 0 and ticks 5 to 6 are missing", text(finding, "but was"));
        assertEquals("tick 0", text(finding, "trace"));
    }

    /** The record of tick 43 begins with tick 40, whose time the event of the strike tells. */
    @ParameterizedTest
    @CsvSource({"15", "100"})
    void aPeakWithinARecordThatLiesInTheStretchBreaksIt(long window) {
        Finding finding = judge(
                always(within(window), INJECTION),
                struck(tick -> tick == 42 ? 130 : 50).period(4));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals(
                "reach.current 0.50 A at +15.0 ms (1.30 A within 4 ticks, 0.30 A beyond the limit)",
                text(finding, "but was"));
        assertEquals("tick 43", text(finding, "trace"));
    }

    @Test
    void aPeakWithinARecordThatBeginsBeforeTheStretchMayLieBeforeIt() {
        SyntheticTrace trace = new SyntheticTrace(200)
                .period(4)
                .told(POSITION, tick -> 1)
                .on(42, 0)
                .real(CURRENT, tick -> tick == 41 ? 130 : 50);

        Finding finding = judge(always(within(100), INJECTION), trace);

        assertEquals(Verdict.INCONCLUSIVE, finding.verdict());
        assertEquals("tick 42", text(finding, "trace"));
    }

    /** It opens at 250 ms and closes just before tick 63: greater peaks of the records at both edges may lie outside. */
    @Test
    void aPeakIsTheWorstThatLiesInTheStretchForCertain() {
        SyntheticTrace trace = struck(tick -> tick == 49 || tick == 62 ? 130 : tick == 59 ? 105 : 50)
                .period(4);

        Finding finding = judge(peak(new Window(50_000, 114_998)), trace);

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals("reach.current 1.05 A at +95.0 ms (0.05 A beyond the limit)", text(finding, "but was"));
        assertEquals("tick 59", text(finding, "trace"));
        assertEquals("-0.05 A", value(finding));
    }

    /** Tick 51 lies in the window for certain, though its record began before it. */
    @Test
    void theReadingOfARecordsOwnTickIsThereThoughItsOthersMayNotBe() {
        Finding finding = judge(
                peak(within(50, 100)), struck(tick -> tick == 51 ? 110 : 50).period(4));

        assertEquals("reach.current 1.10 A at +55.0 ms (0.10 A beyond the limit)", text(finding, "but was"));
        assertEquals("tick 51", text(finding, "trace"));
        assertEquals("-0.10 A", value(finding));
    }

    /** A microsecond behind tick 51 tick 52 can have been at the earliest; the record before it has a greater peak. */
    @Test
    void theWorstOfARecordIsThatOfItsOwnTicks() {
        IntUnaryOperator current = tick -> tick == 50 ? 200 : tick == 53 ? 120 : 50;
        Window window = new Window(55_001, 100_000);
        String within = "reach.current 0.50 A at +75.0 ms (1.20 A within 4 ticks, 0.20 A beyond the limit)";

        Finding peak = judge(peak(window), struck(current).period(4));
        Finding limit = judge(always(window, INJECTION), struck(current).period(4));
        Finding never = judge(never(window), struck(current).period(4));

        assertEquals("reach.current 1.20 A at +75.0 ms (0.20 A beyond the limit)", text(peak, "but was"));
        assertEquals("tick 55", text(peak, "trace"));
        assertEquals(within, text(limit, "but was"));
        assertEquals(within, text(never, "but was"));
        assertEquals("-0.20 A", value(limit));
        assertEquals("-0.20 A", value(never));
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
