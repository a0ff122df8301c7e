package snagbench.bench.report;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.OptionalLong;

/** Times as people read them. */
public final class Figures {
    private static final long MICROS_PER_SECOND = 1_000_000;

    private Figures() {}

    /**
     * Milliseconds with one decimal.
     *
     * @param micros a time in microseconds, if there is one
     * @return such as "137.4 ms"; a dash where there is no figure
     */
    public static String millis(OptionalLong micros) {
        return micros.isPresent() ? millis(micros.getAsLong()) : "-";
    }

    /**
     * Milliseconds with one decimal.
     *
     * @param micros a time in microseconds
     * @return such as "137.4 ms"
     */
    public static String millis(long micros) {
        return BigDecimal.valueOf(micros, 3).setScale(1, RoundingMode.HALF_EVEN).toPlainString() + " ms";
    }

    /**
     * Milliseconds, signed, so that a miss cannot be taken for a margin.
     *
     * @param micros a margin in microseconds, if there is one
     * @return such as "+23.0 ms"; a dash where there is no figure
     */
    public static String margin(OptionalLong micros) {
        if (micros.isEmpty()) {
            return "-";
        }
        return (micros.getAsLong() >= 0 ? "+" : "") + millis(micros.getAsLong());
    }

    /**
     * Seconds with one decimal.
     *
     * @param micros a time in microseconds
     * @return such as "2.6 s"
     */
    public static String seconds(long micros) {
        return BigDecimal.valueOf(micros)
                        .divide(BigDecimal.valueOf(MICROS_PER_SECOND), 1, RoundingMode.HALF_EVEN)
                        .toPlainString()
                + " s";
    }
}
