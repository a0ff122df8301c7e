package snagbench.bench.script;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Figures as the line carries them. */
class FixedPointTests {
    @ParameterizedTest
    @CsvSource({
        // Worked by hand: factor * 65536.
        "1, 65536",
        "0.5, 32768",
        "-1, -65536",
        "0, 0",
        "0.000007, 0",
        "0.000008, 1",
        "0.35, 22938",
        "-32768, -2147483648",
        "32767.99998, 2147483647",
    })
    void aFactorIsIn65536ths(BigDecimal factor, int raw) {
        assertEquals(OptionalInt.of(raw), ScaleFactor.of(factor));
    }

    @ParameterizedTest
    @ValueSource(strings = {"32768", "-32768.00001", "99999999999999999999"})
    void aFactorThatDoesNotFitIsTold(BigDecimal factor) {
        assertEquals(OptionalInt.empty(), ScaleFactor.of(factor));
    }

    @ParameterizedTest
    @CsvSource({
        // 2^32 / 10^6 = 4294.967296 for one step a second, away from zero.
        "1, 4295",
        "-1, -4295",
        "0.0001, 1",
        "0, 0",
        "400, 1717987",
        "499999.999, 2147483644",
    })
    void aDriftIsRoundedAwayFromZero(BigDecimal stepsPerSecond, int rate) {
        assertEquals(OptionalInt.of(rate), RampRate.perSecond(stepsPerSecond));
    }

    @Test
    void aDriftThatIsTooFastIsToldAndTheFastestIsNot() {
        assertTrue(RampRate.perSecond(BigDecimal.valueOf(RampRate.mostStepsPerSecond()))
                .isPresent());
        assertTrue(RampRate.perSecond(BigDecimal.valueOf(-RampRate.mostStepsPerSecond()))
                .isPresent());
        assertEquals(OptionalInt.empty(), RampRate.perSecond(BigDecimal.valueOf(RampRate.mostStepsPerSecond() + 1L)));
    }

    @Test
    void noDriftIsSlowerThanAskedForOrFasterByMoreThanItsLastDigit() {
        for (long seed = 1; seed <= 1000; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            BigDecimal asked = BigDecimal.valueOf(random.nextInt(-400_000_000, 400_000_001), 3);
            // Rates are in 2^-32 steps per us: so many steps in 10^6 us.
            BigDecimal exact = asked.multiply(BigDecimal.valueOf(1L << 32)).movePointLeft(6);
            BigDecimal rate = BigDecimal.valueOf(RampRate.perSecond(asked).orElseThrow());
            BigDecimal more = rate.abs().subtract(exact.abs());
            assertTrue(more.signum() >= 0 && more.compareTo(BigDecimal.ONE) < 0, "seed " + seed + ": " + asked);
            assertTrue(rate.signum() == asked.signum() || asked.signum() == 0, "seed " + seed + ": " + asked);
        }
    }

    @ParameterizedTest
    @CsvSource({
        // SD * 16384 / 147.8 = SD * 110.8525...; 15 steps are the worked example of the wire's page.
        "15, 1663",
        "1, 111",
        "0.01, 1",
        "0.005, 1",
        "0.0046, 1",
        "147.8, 16384",
    })
    void noiseHasTheAmplitudeOfItsStandardDeviation(BigDecimal standardDeviation, int amplitude) {
        assertEquals(OptionalInt.of(amplitude), NoiseAmplitude.of(standardDeviation));
    }

    @ParameterizedTest
    @ValueSource(strings = {"0", "0.0045", "-1", "99999999"})
    void noiseThatCannotBeMadeIsTold(BigDecimal standardDeviation) {
        assertEquals(OptionalInt.empty(), NoiseAmplitude.of(standardDeviation));
    }
}
