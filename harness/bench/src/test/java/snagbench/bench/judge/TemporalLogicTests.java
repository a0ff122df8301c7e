package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.VOLTAGE;

import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation.Window;
import snagbench.bench.trace.SyntheticTrace;

/**
 * The worked example of temporal logic with robustness: samples k = 0..5, x = 0.2 0.9 1.4 0.7 1.8 2.1. Definitions after
 * Donze and Maler, FORMATS 2010, and Fainekos and Pappas, Theoretical Computer Science 410 (2009) 4262-4291, from memory;
 * the example's values were recomputed by hand: p = (x &gt; 1) has the robustness -.8 -.1 .4 -.3 .8 1.1.
 *
 * <p>A sample is a tick of 1 ms here, and x a current in steps of 0.1, held from one tick to the next. {@code becomes} is
 * F over the rising edge of its condition, {@code always} is G to the script's end.
 */
class TemporalLogicTests {
    private static final int[] X = {2, 9, 14, 7, 18, 21};
    private static final int LOOP = 1000;

    private static SyntheticTrace example() {
        return new SyntheticTrace(X.length)
                .clock(tick -> tick * LOOP)
                .real(CURRENT, tick -> X[tick])
                .told(POSITION, tick -> 1)
                .on(1, 0);
    }

    private static Finding first(Scripts script) {
        return Judge.judge(script.script(), example().trace(), Scripts.rig(0))
                .findings()
                .get(0);
    }

    /** F_[0,1] p at 0 has the robustness -.1 and fails; F_[0,3] p has .4 and passes. p comes about at sample 2, not at 1.2. */
    @ParameterizedTest
    @CsvSource({"1000, FAIL, -1000", "1500, FAIL, -500", "2000, PASS, 0", "3000, PASS, 1000"})
    void eventuallyIsSampleAndHold(long deadlineMicros, Verdict verdict, long marginMicros) {
        Finding finding = first(new Scripts()
                .becomes("p", when(term(CURRENT, Relation.ABOVE, 10)), new Window(0, deadlineMicros), BEGIN));

        assertEquals(verdict, finding.verdict());
        assertEquals(marginMicros, finding.marginMicros().orElseThrow());
    }

    /** F_[4,5] p would hold; a first entry at sample 2 is too early for a script that gives 4 as its lower edge. */
    @Test
    void eventuallyWithALowerEdgeCountsTheFirstEntry() {
        Finding finding = first(
                new Scripts().becomes("p", when(term(CURRENT, Relation.ABOVE, 10)), new Window(4000, 5000), BEGIN));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals(-2000, finding.marginMicros().orElseThrow());
    }

    /** G_[0,5] p at 0 has the robustness -.8: the first sample violates it by as much. */
    @Test
    void alwaysHasTheRobustnessOfItsViolation() {
        assertEquals(
                "reach.current 0.02 A at +0 ms (0.08 A beyond the limit)",
                text(
                        first(new Scripts()
                                .always(when(term(CURRENT, Relation.ABOVE, 10)))
                                .end(5, BEGIN)),
                        "but was"));
    }

    /** G_[0,5] (x &gt; 0.1) at 0 has the robustness min(x) - 0.1 = .1, at sample 0. */
    @Test
    void alwaysThatHoldsTellsItsRobustness() {
        Finding finding = first(
                new Scripts().always(when(term(CURRENT, Relation.ABOVE, 1))).end(5, BEGIN));

        assertEquals(Verdict.PASS, finding.verdict());
        assertEquals("reach.current 0.02 A at +0 ms (0.01 A to spare)", text(finding, "closest"));
    }

    /** G of not p up to sample 1 has the robustness .1, and up to sample 2 -.4. */
    @ParameterizedTest
    @CsvSource({"1, PASS", "2, FAIL"})
    void neverIsAlwaysNot(long end, Verdict verdict) {
        assertEquals(
                verdict,
                first(new Scripts()
                                .never(when(term(CURRENT, Relation.ABOVE, 10)))
                                .end(end, BEGIN))
                        .verdict());
    }

    /** A window that reaches past the end of the record is inconclusive, not pass and not fail. */
    @Test
    void aWindowPastTheEndOfTheRecordSettlesNothing() {
        assertEquals(
                Verdict.INCONCLUSIVE,
                first(new Scripts().becomes("x", when(term(CURRENT, Relation.ABOVE, 30)), new Window(0, 6000), BEGIN))
                        .verdict());
        assertEquals(
                Verdict.INCONCLUSIVE,
                first(new Scripts()
                                .always(when(term(VOLTAGE, Relation.ABOVE, 0)))
                                .end(6, BEGIN))
                        .verdict());
    }

    private static String text(Finding finding, String label) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(label))
                .map(Fact::text)
                .collect(Collectors.joining());
    }
}
