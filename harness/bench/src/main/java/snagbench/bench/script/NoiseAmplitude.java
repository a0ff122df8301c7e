package snagbench.bench.script;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.OptionalInt;

/**
 * How loud noise is, as a probe takes it: a = round(SD * 2^14 / 147.8), 147.8 being the standard deviation of the sum of four
 * evenly distributed bytes, sqrt(4 * (256^2 - 1) / 12).
 */
public final class NoiseAmplitude {
    private static final BigDecimal SCALE = BigDecimal.valueOf(1 << 14);
    private static final BigDecimal OF_ONE_DRAW = new BigDecimal("147.8");
    private static final BigDecimal GREATEST = BigDecimal.valueOf(Integer.MAX_VALUE);

    private NoiseAmplitude() {}

    /**
     * The nearest amplitude.
     *
     * @param standardDeviation in steps of the channel, above 0
     * @return the amplitude, from 1; empty where it would be 0 or beyond 2^31 - 1
     */
    public static OptionalInt of(BigDecimal standardDeviation) {
        BigDecimal scaled = standardDeviation.multiply(SCALE).divide(OF_ONE_DRAW, 0, RoundingMode.HALF_UP);
        boolean fits = scaled.signum() > 0 && scaled.compareTo(GREATEST) <= 0;
        return fits ? OptionalInt.of(scaled.intValueExact()) : OptionalInt.empty();
    }
}
