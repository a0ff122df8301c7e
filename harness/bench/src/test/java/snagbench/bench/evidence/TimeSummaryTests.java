package snagbench.bench.evidence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.evidence.TimeSummary.ToleranceBound;

class TimeSummaryTests {
    private static List<OptionalLong> times(long... micros) {
        return LongStream.of(micros).mapToObj(OptionalLong::of).toList();
    }

    private static List<OptionalLong> upTo(int most) {
        return new ArrayList<>(
                LongStream.rangeClosed(1, most).mapToObj(OptionalLong::of).toList());
    }

    /** Hyndman and Fan, American Statistician 50 (1996) 361-365: all their continuous types agree on the median; figures made anew
     * with Commons Statistics. The mean of 5 and 6 is 5.5, and half a microsecond is dropped. */
    @Test
    void theMedianIsTheOneInTheMiddle() {
        assertEquals(
                OptionalLong.of(5),
                TimeSummary.of(upTo(10), 0.9, 0.9).orElseThrow().medianMicros());
        assertEquals(
                OptionalLong.of(35),
                TimeSummary.of(times(50, 15, 40, 20, 35), 0.9, 0.9)
                        .orElseThrow()
                        .medianMicros());
        assertEquals(
                OptionalLong.of(55),
                TimeSummary.of(times(60, 50), 0.9, 0.9).orElseThrow().medianMicros());
        assertEquals(
                OptionalLong.of(7),
                TimeSummary.of(times(7), 0.9, 0.9).orElseThrow().medianMicros());
    }

    /**
     * The longest of n covers the share p with the confidence 1 - p^n, so that it takes as many as a run of successes; the second
     * longest as many as with one failure allowed, and so on: the tables of sample sizes once more.
     */
    @ParameterizedTest
    @CsvSource({
        "0.90, 0.90, 22, 38, 52, 65",
        "0.90, 0.95, 29, 46, 61, 76",
        "0.95, 0.95, 59, 93, 124, 153",
        "0.99, 0.95, 299, 473, 628, 773"
    })
    void theBoundStandsAsFarBelowTheWorstAsTheTablesAllow(
            double share, double confidence, int n0, int n1, int n2, int n3) {
        int[] runs = {n0, n1, n2, n3};
        for (int below = 0; below < runs.length; below++) {
            ToleranceBound bound = bound(upTo(runs[below]), share, confidence);
            assertEquals(runs[below] - below, bound.rank());
            assertEquals(runs[below] - below, bound.micros());
            assertTrue(bound.isEnough());
            assertTrue(bound.confidence() >= confidence);
        }
        ToleranceBound tooFew = bound(upTo(n0 - 1), share, confidence);
        assertFalse(tooFew.isEnough());
        assertEquals(n0 - 1, tooFew.rank());
        assertEquals(1 - Math.pow(share, n0 - 1), tooFew.confidence(), 1e-12);
        assertTrue(tooFew.confidence() < confidence);
    }

    /** From the definition: 1 - 0.9^22 and 1 - 0.9^38 - 38 * 0.1 * 0.9^37. */
    @Test
    void theConfidenceAttainedIsTold() {
        assertEquals(0.9015229097816390, bound(upTo(22), 0.9, 0.9).confidence(), 1e-12);
        assertEquals(
                1 - Math.pow(0.9, 38) - 38 * 0.1 * Math.pow(0.9, 37),
                bound(upTo(38), 0.9, 0.9).confidence(),
                1e-12);
    }

    @Test
    void timesThatNeverCameAreLaterThanAllOthers() {
        List<OptionalLong> some = upTo(3);
        some.add(OptionalLong.empty());
        TimeSummary summary = TimeSummary.of(some, 0.9, 0.9).orElseThrow();
        assertEquals(4, summary.runs());
        assertEquals(3, summary.seen());
        assertEquals(OptionalLong.of(2), summary.medianMicros());
        assertEquals(3, summary.worstMicros());
        assertEquals(Optional.empty(), summary.bound(), "the worst did not come");

        List<OptionalLong> rarely = new ArrayList<>(List.of(OptionalLong.empty(), OptionalLong.empty()));
        rarely.add(OptionalLong.of(9));
        assertEquals(
                OptionalLong.empty(),
                TimeSummary.of(rarely, 0.9, 0.9).orElseThrow().medianMicros());
        assertEquals(Optional.empty(), TimeSummary.of(List.of(OptionalLong.empty()), 0.9, 0.9));
        assertEquals(Optional.empty(), TimeSummary.of(List.of(), 0.9, 0.9));
    }

    @Test
    void oneThatNeverCameOfManyLeavesABound() {
        List<OptionalLong> many = upTo(37);
        many.add(OptionalLong.empty());
        assertEquals(37, bound(many, 0.9, 0.9).micros());
    }

    @Test
    void theOrderOfTheTimesDoesNotMatter() {
        List<OptionalLong> mixed = upTo(60);
        Optional<TimeSummary> sorted = TimeSummary.of(mixed, 0.9, 0.95);
        for (int seed = 1; seed <= 20; seed++) {
            Collections.shuffle(mixed, new Random(seed));
            assertEquals(sorted, TimeSummary.of(mixed, 0.9, 0.95), "seed " + seed);
        }
    }

    /** What the bound promises, seen happening with times that are anything but normal: it covers 90 % in 90 % of all samples. */
    @Test
    void theBoundCoversItsShareWhateverTheDistribution() {
        long seed = 5;
        Random random = new Random(seed);
        int samples = 20_000;
        int covered = 0;
        // Which of the times it is depends on their number alone.
        int rank = bound(upTo(38), 0.9, 0.9).rank();
        for (int i = 0; i < samples; i++) {
            long[] micros = random.doubles(38)
                    .mapToLong(even -> (long) (1e6 * Math.pow(even, 5)))
                    .toArray();
            Arrays.sort(micros);
            long most = micros[rank - 1];
            covered += most >= 1e6 * Math.pow(0.9, 5) ? 1 : 0;
        }
        assertTrue(covered >= 0.9 * samples, "seed " + seed + ": " + covered + " of " + samples);
        assertTrue(covered < samples, "a bound that always covers says nothing");
    }

    private static ToleranceBound bound(List<OptionalLong> times, double share, double confidence) {
        return TimeSummary.of(times, share, confidence).orElseThrow().bound().orElseThrow();
    }
}
