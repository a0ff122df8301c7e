package snagbench.bench.script;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalInt;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rates of ramps; the probe adds floor(rate * elapsed / 2^32) steps, and no more than the whole amount. */
class RampRateTests {
    @ParameterizedTest
    @CsvSource({
        // Worked by hand: steps * 2^32 / micros, rounded up.
        "1, 4294967296, 1",
        "600, 200000, 12884902",
        "-600, 200000, -12884902",
        "1, 2147483647, 3",
        "1, 3, 1431655766",
        "0, 1000, 0",
        "600, 0, 0",
    })
    void isStepsByMicrosecondsTimesTwoToThe32(int steps, long micros, int rate) {
        assertEquals(OptionalInt.of(rate), RampRate.of(steps, micros));
    }

    @Test
    void theShortestTimeIsTheFirstThatHasARate() {
        SplittableRandom random = new SplittableRandom(7);
        for (int i = 0; i < 2_000; i++) {
            int steps = random.nextInt() >> random.nextInt(31);
            if (steps != 0) {
                long shortest = RampRate.shortestMicros(steps);

                assertTrue(RampRate.of(steps, shortest).isPresent(), steps + " steps in " + shortest + " us");
                assertEquals(OptionalInt.empty(), RampRate.of(steps, shortest - 1), steps + " steps in less");
            }
        }
    }

    @Test
    void noRampThatCanBeWrittenIsTooSlowAndNoneIsLate() {
        SplittableRandom random = new SplittableRandom(8);
        for (int i = 0; i < 2_000; i++) {
            int steps = random.nextInt(1, 1 << random.nextInt(1, 24));
            long micros = random.nextLong(RampRate.shortestMicros(steps), 1L << 31);

            int rate = RampRate.of(steps, micros).orElseThrow();

            String which = steps + " steps in " + micros + " us";
            assertTrue(rate >= 1, which);
            assertTrue((rate * micros) >> 32 >= steps, which + ": late");
            assertTrue(((rate - 1) * micros) >> 32 < steps, which + ": steeper than it need be");
        }
    }
}
