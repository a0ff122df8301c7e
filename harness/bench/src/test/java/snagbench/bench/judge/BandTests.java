package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.SyntheticTrace;

/** What is told of a band: both of its limits are about one reading. The fault strikes in tick 40; ticks are 5 ms apart. */
class BandTests {
    private static SyntheticTrace struck() {
        return new SyntheticTrace(200).told(POSITION, tick -> 1).on(40, 0);
    }

    private static Finding judge(Scripts script, SyntheticTrace trace) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(100))
                .findings()
                .get(0);
    }

    private static Condition band() {
        return when(term(CURRENT, Relation.AT_LEAST, 98), term(CURRENT, Relation.AT_MOST, 102));
    }

    private static Stretch window() {
        return new Stretch(INJECTION, Optional.of(within(100)), Optional.empty());
    }

    private static Scripts always() {
        return new Scripts().expect(at -> new Expectation.Always(at, "it", band(), window()));
    }

    @Test
    void tellsTheDistanceToTheNearerLimit() {
        Finding finding = judge(always(), struck().real(CURRENT, tick -> tick == 50 ? 101 : 100));

        assertEquals("reach.current 1.01 A at +50.0 ms (0.01 A to spare)", text(finding, "closest"));
    }

    @Test
    void aLostRecordIsNotTheWorstReading() {
        Finding finding = judge(always(), struck().loseTicks(52, 52).real(CURRENT, tick -> tick == 55 ? 103 : 100));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals("-0.01 A", finding.marginValue().orElseThrow().show());
    }

    /** The record of tick 55, which reads 1.00 A, went so far below and above in the three ticks before it. */
    @ParameterizedTest
    @CsvSource({
        "97, 100, 0.97 A within 4 ticks, 0.01 A",
        "100, 103, 1.03 A within 4 ticks, 0.01 A",
        "96, 103, 0.96 A within 4 ticks, 0.02 A",
        "97, 104, 1.04 A within 4 ticks, 0.02 A"
    })
    void ofARecordTheReadingThatWentFurthestBeyondEitherLimitIsTold(
            int least, int greatest, String reading, String beyond) {
        Finding finding = judge(
                always(), struck().period(4).real(CURRENT, tick -> tick == 53 ? least : tick == 54 ? greatest : 100));

        assertTrue(
                text(finding, "but was").endsWith("(" + reading + ", " + beyond + " beyond the limit)"),
                text(finding, "but was"));
    }

    /** The record of ticks 56 to 59 is as far below the band, or above it, as it tells. */
    @ParameterizedTest
    @CsvSource({
        "90, 95, 80, 'reach.current 0.95 A at +95.0 ms (0.03 A short)', -0.03 A",
        "105, 110, 120, 'reach.current 1.05 A at +95.0 ms (0.03 A short)', -0.03 A"
    })
    void ofAMissTheReadingThatCameNearestToTheBandIsTold(
            int least, int greatest, int otherwise, String closest, String value) {
        Scripts script = new Scripts().becomes("it", band(), within(250), INJECTION);

        Finding finding = judge(
                script,
                struck().period(4).real(CURRENT, tick -> tick == 57 ? least : tick == 58 ? greatest : otherwise));

        assertEquals(Verdict.FAIL, finding.verdict());
        assertEquals(value, finding.marginValue().orElseThrow().show());
        assertEquals(closest, text(finding, "closest"));
    }

    private static String text(Finding finding, String label) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(label))
                .map(Fact::text)
                .collect(Collectors.joining("; "));
    }
}
