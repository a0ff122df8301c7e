package snagbench.bench.script;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.OptionalInt;

/** A factor as a probe takes it: in 1/65536, in a signed number of 32 bits. */
public final class ScaleFactor {
    private static final BigDecimal ONE = BigDecimal.valueOf(1 << 16);
    private static final BigDecimal LEAST = BigDecimal.valueOf(Integer.MIN_VALUE);
    private static final BigDecimal GREATEST = BigDecimal.valueOf(Integer.MAX_VALUE);

    private ScaleFactor() {}

    /**
     * The nearest factor.
     *
     * @param factor any sign
     * @return in 1/65536, a half rounded away from zero; empty where it is not from -32768 to below 32768
     */
    public static OptionalInt of(BigDecimal factor) {
        BigDecimal scaled = factor.multiply(ONE).setScale(0, RoundingMode.HALF_UP);
        boolean fits = scaled.compareTo(LEAST) >= 0 && scaled.compareTo(GREATEST) <= 0;
        return fits ? OptionalInt.of(scaled.intValueExact()) : OptionalInt.empty();
    }
}
