package snagbench.bench.evidence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

class TrendTests {
    private static List<Boolean> order(String letters) {
        return letters.chars().mapToObj(letter -> letter == 'P').toList();
    }

    @Test
    void failuresThatAllStandAtTheEndAreNoChance() {
        Trend trend = Trend.ofPasses(order("PPPPPPPPFFFFFFFF")).orElseThrow();
        assertTrue(trend.isSuspicious());
        assertTrue(trend.towardsTheEnd());
        // 2 of the 12870 ways to place 8 among 16 are so extreme.
        assertEquals(2.0 / 12870, trend.chance(), 1e-12);
    }

    @Test
    void failuresThatAllStandAtTheBeginningAreNoChanceEither() {
        Trend trend = Trend.ofPasses(order("FFFFFFPPPPPPPP")).orElseThrow();
        assertTrue(trend.isSuspicious());
        assertFalse(trend.towardsTheEnd());
    }

    @Test
    void failuresHereAndThereAreNotSuspicious() {
        assertFalse(Trend.ofPasses(order("PFPPFPFPPPFPPFPF")).orElseThrow().isSuspicious());
    }

    @Test
    void oneFailureAtTheEndMayBeChance() {
        assertFalse(
                Trend.ofPasses(order("PPPPPPPPPPPPPPPPPPPPPF")).orElseThrow().isSuspicious());
    }

    @Test
    void itIsSuspiciousBelowOneInAHundredAndNotAtIt() {
        assertFalse(new Trend(Trend.SUSPICIOUS_BELOW, true).isSuspicious());
        assertTrue(new Trend(Math.nextDown(Trend.SUSPICIOUS_BELOW), true).isSuspicious());
    }

    /** The second and the fourth of twelve failed: each stands behind so many that passed, 1 and 2, of the 20 pairs. */
    @Test
    void moreFailuresBeforeThanBehindAreNotTowardsTheEnd() {
        assertFalse(Trend.ofPasses(order("PFPFPPPPPPPP")).orElseThrow().towardsTheEnd());
        assertTrue(Trend.ofPasses(order("PPPPPPPPFPFP")).orElseThrow().towardsTheEnd());
        assertFalse(Trend.ofPasses(order("PFP")).orElseThrow().towardsTheEnd(), "just in the middle");
    }

    @Test
    void tenTimesAreCompared() {
        Trend shrinking =
                Trend.ofTimes(times(90, 80, 95, 70, 85, 60, 72, 50, 65, 55)).orElseThrow();
        Trend growing =
                Trend.ofTimes(times(55, 65, 50, 72, 60, 85, 70, 95, 80, 90)).orElseThrow();
        // By hand: of the 25 pairs of one late and one early time the late is the longer in 1, and turned round in 24.
        assertFalse(shrinking.towardsTheEnd());
        assertTrue(growing.towardsTheEnd());
        assertEquals(shrinking.chance(), growing.chance(), 1e-12);
    }

    @Test
    void halvesThatAreAlikeShowNoDirection() {
        assertFalse(
                Trend.ofTimes(times(1, 2, 3, 4, 5, 1, 2, 3, 4, 5)).orElseThrow().towardsTheEnd());
    }

    private static List<OptionalLong> times(long... ticks) {
        return LongStream.of(ticks)
                .mapToObj(one -> OptionalLong.of(one * 10_000))
                .toList();
    }

    @Test
    void whereAllCameToTheSameThereIsNothingToCompare() {
        assertEquals(Optional.empty(), Trend.ofPasses(order("PPPP")));
        assertEquals(Optional.empty(), Trend.ofPasses(order("FF")));
        assertEquals(Optional.empty(), Trend.ofPasses(List.of()));
    }

    @Test
    void timesThatGrowAreNoticedAndThoseThatNeverCameAreTheLongest() {
        List<OptionalLong> growing = IntStream.range(0, 12)
                .mapToObj(i -> i == 11 ? OptionalLong.empty() : OptionalLong.of(700_000 + 10_000L * i))
                .toList();
        Trend trend = Trend.ofTimes(growing).orElseThrow();
        assertTrue(trend.isSuspicious());
        assertTrue(trend.towardsTheEnd());
    }

    @Test
    void fewTimesAreNotCompared() {
        assertEquals(
                Optional.empty(),
                Trend.ofTimes(IntStream.range(0, 9).mapToObj(OptionalLong::of).toList()));
    }

    /** A warning that comes too often is not read: of orders that are mere chance no more than 1 in 100 gets one. */
    @Test
    void chanceIsRarelyTakenForATrend() {
        long seed = 99;
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
        int samples = 4000;
        int outcomes = 0;
        int times = 0;
        for (int i = 0; i < samples; i++) {
            List<Boolean> passed = IntStream.range(0, 22)
                    .mapToObj(run -> random.nextDouble() < 0.8)
                    .toList();
            List<OptionalLong> ticks = IntStream.range(0, 22)
                    .mapToObj(run -> OptionalLong.of(10_000L * random.nextInt(70, 90)))
                    .toList();
            outcomes += Trend.ofPasses(passed).filter(Trend::isSuspicious).isPresent() ? 1 : 0;
            times += Trend.ofTimes(ticks).filter(Trend::isSuspicious).isPresent() ? 1 : 0;
        }
        double most = samples * 0.015;
        assertTrue(outcomes <= most, "seed " + seed + ": " + outcomes + " of " + samples);
        assertTrue(times <= most, "seed " + seed + ": " + times + " of " + samples);
    }
}
