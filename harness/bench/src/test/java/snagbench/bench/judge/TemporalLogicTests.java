package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.VOLTAGE;

import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Expectation.Window;
import snagbench.bench.script.Stretch;
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

    private static Condition p() {
        return when(term(CURRENT, Relation.ABOVE, 10));
    }

    private static long robustness(Finding finding) {
        return finding.marginValue().orElseThrow().steps();
    }

    /** F_[0,1] p at 0 has the robustness -.1, and F_[0,3] p has .4. */
    @ParameterizedTest
    @CsvSource({"1000, FAIL, -1", "3000, PASS, 4"})
    void eventuallyHasTheGreatestRobustnessOfItsWindow(long most, Verdict verdict, long steps) {
        Finding finding = first(new Scripts().becomes("p", p(), new Window(0, most), BEGIN));

        assertEquals(verdict, finding.verdict());
        assertEquals(steps, robustness(finding));
    }

    /** G_[0,2] p at k = 0..3 is -.8 -.3 -.3 -.3, G_[4,5] p at 0 is .8, G_[0,5] p is -.8. */
    @ParameterizedTest
    @CsvSource({
        "0, 2, FAIL, -8",
        "1, 3, FAIL, -3",
        "2, 4, FAIL, -3",
        "3, 5, FAIL, -3",
        "4, 5, PASS, 8",
        "0, 5, FAIL, -8",
        "5, 5, PASS, 11"
    })
    void globallyHasTheLeastRobustnessOfItsWindow(long from, long to, Verdict verdict, long steps) {
        Stretch window = new Stretch(BEGIN, Optional.of(new Window(from * LOOP, to * LOOP)), Optional.empty());

        Finding finding = first(new Scripts().expect(at -> new Expectation.Always(at, "p", p(), window)));

        assertEquals(verdict, finding.verdict());
        assertEquals(steps, robustness(finding));
    }

    /** G_[0,1] p at k = 0..4 is -.8 -.1 -.3 -.3 .8; so F_[0,3] G_[0,1] p is -.1 and F_[0,4] G_[0,1] p is .8, at sample 4. */
    @ParameterizedTest
    @CsvSource({"3000, FAIL", "4000, PASS"})
    void eventuallyGloballyIsStays(long most, Verdict verdict) {
        Finding finding = first(
                new Scripts().expect(at -> new Expectation.Stays(at, "p", p(), LOOP, new Window(0, most), BEGIN)));

        assertEquals(verdict, finding.verdict());
        if (verdict == Verdict.PASS) {
            assertEquals(4, finding.metTick().orElseThrow());
            assertEquals(8, robustness(finding));
        }
    }

    /** F_[0,3] G to sample 5 of p is -.3 at its best, since p is broken at sample 3; F_[0,4] of it is .8. */
    @ParameterizedTest
    @CsvSource({"3000, FAIL", "4000, PASS"})
    void eventuallyGloballyToTheEndIsSettles(long most, Verdict verdict) {
        Finding finding = first(new Scripts()
                .expect(at -> new Expectation.Settles(at, "p", p(), OptionalLong.empty(), new Window(0, most), BEGIN))
                .end(5, BEGIN));

        assertEquals(verdict, finding.verdict());
    }

    /**
     * y = 3.0 2.0 1.0 0.5 0.2 0.1 and q = (y &gt; 0.4): q U_[4,5] p has .1 where q must hold before p only, and -.2 where it
     * must hold in p's sample too. Ours is the first: a stretch does not have the tick of what it ends with. p comes about
     * for the second time at sample 4.
     */
    @Test
    void untilIsAlwaysUpToAMomentAndDoesNotHaveItsTick() {
        int[] y = {30, 20, 10, 5, 2, 1};
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Becomes(at, "p", p(), new Window(0, 5000), BEGIN, 2))
                .expect(at -> new Expectation.Always(
                        at,
                        "q",
                        when(term(VOLTAGE, Relation.ABOVE, 4)),
                        new Stretch(BEGIN, Optional.empty(), Optional.of(Scripts.after(0, "p")))));

        Finding finding = Judge.judge(
                        script.script(),
                        example().real(VOLTAGE, tick -> y[tick]).trace(),
                        Scripts.rig(0))
                .findings()
                .get(1);

        assertEquals(Verdict.PASS, finding.verdict());
        assertEquals(1, robustness(finding));
    }

    private static String text(Finding finding, String label) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(label))
                .map(Fact::text)
                .collect(Collectors.joining());
    }
}
