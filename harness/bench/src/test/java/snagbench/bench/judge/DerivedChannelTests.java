package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.quantity;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.judge.Scripts.yesOrNo;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Source;
import snagbench.bench.trace.SyntheticTrace;

/** Derived channels against the table that the documentation works out by hand, and in expectations. */
class DerivedChannelTests {
    private static final ChannelDescription SPEED = quantity(0, "reach.speed", "mm/s", 1, 0);
    private static final ChannelDescription MEAN = quantity(1, "reach.mean", "mm", 1, -2);
    private static final ChannelDescription RMS = quantity(2, "reach.rms", "mm", 1, -2);
    private static final ChannelDescription STALLED = yesOrNo(3, "reach.stalled");
    private static final ChannelDescription PRESSED = yesOrNo(4, "pressed");
    private static final ChannelDescription ERROR = quantity(5, "reach.error", "mm", 1, -1);
    private static final List<ChannelDescription> COLUMNS = List.of(SPEED, MEAN, RMS, STALLED, PRESSED, ERROR);

    private static Scripts derived() {
        return new Scripts()
                .derive(SPEED, new DerivedChannel.Rate(POSITION, Source.REAL, 10_000))
                .derive(MEAN, new DerivedChannel.Mean(POSITION, Source.REAL, 10_000))
                .derive(RMS, new DerivedChannel.RootMeanSquare(POSITION, Source.REAL, 10_000))
                .derive(
                        STALLED,
                        new DerivedChannel.Stalled(
                                POSITION, Source.REAL, 2, 10_000, when(term(CURRENT, Relation.AT_LEAST, 100))))
                .derive(PRESSED, new DerivedChannel.Debounced(when(term(CURRENT, Relation.AT_LEAST, 100)), 10_000))
                .derive(ERROR, new DerivedChannel.Difference(POSITION, Source.TOLD, POSITION, Source.REAL));
    }

    private static List<List<String>> table() throws IOException {
        Path page = Path.of("..", "..", "docs", "derived-channels.md");
        try (Stream<String> lines = Files.lines(page)) {
            return lines.filter(line -> line.matches("\\| \\d.*"))
                    .map(line -> Stream.of(line.substring(1).split("\\|"))
                            .map(String::strip)
                            .toList())
                    .toList();
        }
    }

    private static int steps(String figure, int exponent) {
        return new BigDecimal(figure).scaleByPowerOfTen(-exponent).intValueExact();
    }

    @Test
    void areWhatTheDocumentationWorksOutByHand() throws IOException {
        List<List<String>> table = table();
        assertEquals(8, table.size());
        SyntheticTrace trace = new SyntheticTrace(8)
                .clock(tick -> Integer.parseInt(table.get(Math.max(0, tick)).get(1)) * 1000)
                .real(POSITION, tick -> steps(table.get(Math.max(0, tick)).get(2), -1))
                .told(POSITION, tick -> steps(table.get(Math.max(0, tick)).get(3), -1))
                .real(CURRENT, tick -> steps(table.get(Math.max(0, tick)).get(4), -2))
                .on(0, 0);
        Signals signals = new Course(derived().script(), trace.trace(), 0).signals();

        for (int column = 0; column < COLUMNS.size(); column++) {
            ChannelDescription channel = COLUMNS.get(column);
            Cells cells = signals.cells(channel, Source.REAL);
            for (int tick = 0; tick < table.size(); tick++) {
                String written = table.get(tick).get(5 + column);
                String where = channel.name() + " at tick " + tick;
                if (written.equals("-")) {
                    assertTrue(cells.isOpen(tick), where);
                    continue;
                }
                List<String> ends = List.of(written.split(" to ", 2));
                assertEquals(raw(channel, ends.get(0)), cells.least(tick), where);
                assertEquals(raw(channel, ends.get(ends.size() - 1)), cells.greatest(tick), where);
            }
        }
        assertEquals(2, signals.cells(SPEED, Source.REAL).firstTick());
    }

    private static long raw(ChannelDescription channel, String written) {
        int named = channel.valueNames().indexOf(written);
        return named >= 0 ? named : steps(written, channel.stepExponent());
    }

    /** 1 mm a tick of 5 ms is 200 mm/s; 10 ms are two ticks. */
    private static SyntheticTrace moving() {
        return new SyntheticTrace(100)
                .real(POSITION, tick -> 10 * tick)
                .told(POSITION, tick -> 1)
                .on(40, 0);
    }

    private static Finding always(Relation relation, int raw, SyntheticTrace trace) {
        Scripts script = derived().always(when(term(SPEED, relation, raw))).end(400, BEGIN);
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(0))
                .findings()
                .get(0);
    }

    @ParameterizedTest
    @CsvSource({"201, PASS, +1 mm/s", "200, FAIL, +0 mm/s", "199, FAIL, -1 mm/s"})
    void aRateHasMarginsLikeAnyChannel(int limit, Verdict verdict, String margin) {
        Finding finding = always(Relation.BELOW, limit, moving());

        assertEquals(verdict, finding.verdict());
        assertEquals(margin, finding.marginValue().orElseThrow().show());
    }

    @Test
    void aRateIsJudgedFromTheTickOnInWhichItHasAValueAndSaysSo() {
        Finding finding = always(Relation.BELOW, 201, moving());

        assertEquals(
                "judged from tick 2 on: before it there is nothing to work the reading out from",
                text(finding, "note"));
    }

    @Test
    void aLostRecordHidesTheRatesThatItIsPartOf() {
        assertEquals(
                Verdict.INCONCLUSIVE,
                always(Relation.BELOW, 300, moving().loseTicks(50, 50)).verdict());
        // Behind the script's end it hides nothing.
        assertEquals(
                Verdict.PASS,
                always(Relation.BELOW, 300, moving().loseTicks(81, 82)).verdict());
    }

    @Test
    void aMeanOverRecordsOfSeveralTicksLiesBetweenTheirExtremes() {
        Signals signals = new Course(derived().script(), moving().period(5).trace(), 0).signals();
        Cells cells = signals.cells(MEAN, Source.REAL);

        // At tick 49 the window is ticks 48 and 49; of 48 it is known that it lay between 45.0 mm and 49.0 mm.
        assertFalse(cells.isOpen(49));
        assertTrue(cells.least(49) <= 4850 && 4850 <= cells.greatest(49));
        assertTrue(
                cells.least(49) >= 4500 && cells.greatest(49) <= 4900, cells.least(49) + " to " + cells.greatest(49));
    }

    @Test
    void aStallIsAnEntryLikeAnyState() {
        Scripts script = derived().becomes("stalls", when(term(STALLED, Relation.IS, 1)), within(60), BEGIN);
        // Driven from tick 4 on, and still from tick 10 on: 10 ms later is tick 12, at 60 ms.
        SyntheticTrace trace = new SyntheticTrace(100)
                .real(POSITION, tick -> tick < 10 ? 5 * tick : 50)
                .real(CURRENT, tick -> tick < 4 ? 0 : 300)
                .told(POSITION, tick -> 1)
                .on(40, 0);

        Finding finding = Judge.judge(script.script(), trace.trace(), Scripts.rig(0))
                .findings()
                .get(0);

        assertEquals(Verdict.PASS, finding.verdict());
        assertEquals(OptionalLong.of(12), finding.metTick());
        assertEquals(OptionalLong.of(0), finding.marginMicros());
    }

    /** Under 30 ms is no press: the debounce of 10 ms lets 10 ms through, and nothing shorter. */
    @ParameterizedTest
    @CsvSource({"1, PASS", "2, PASS", "3, FAIL"})
    void aDebouncedConditionIsTrueOnlyOnceItLasted(int ticks, Verdict verdict) {
        Scripts script = derived()
                .expect(at -> new Expectation.Never(at, "never", when(term(PRESSED, Relation.IS, 1))))
                .end(400, BEGIN);
        SyntheticTrace trace = moving().real(CURRENT, tick -> tick >= 20 && tick < 20 + ticks ? 100 : 0);

        assertEquals(
                verdict,
                Judge.judge(script.script(), trace.trace(), Scripts.rig(0))
                        .findings()
                        .get(0)
                        .verdict());
    }

    private static Stream<ChannelDescription> quantities() {
        return Stream.of(SPEED, MEAN, RMS, ERROR);
    }

    /** Extremes in and out: nothing overflows, and what is not known is not bounded. */
    @ParameterizedTest
    @MethodSource("quantities")
    void theGreatestReadingsDoNoHarm(ChannelDescription channel) {
        SyntheticTrace trace = new SyntheticTrace(20)
                .real(POSITION, tick -> tick % 2 == 0 ? Integer.MAX_VALUE : Integer.MIN_VALUE)
                .told(POSITION, tick -> tick % 3 == 0 ? Integer.MIN_VALUE : Integer.MAX_VALUE)
                .on(0, 0);
        Cells cells = new Course(derived().script(), trace.trace(), 0).signals().cells(channel, Source.REAL);

        for (int tick = 0; tick < 20; tick++) {
            assertTrue(cells.least(tick) <= cells.greatest(tick), channel.name() + " at tick " + tick);
        }
    }

    private static String text(Finding finding, String label) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(label))
                .map(Fact::text)
                .collect(Collectors.joining());
    }
}
