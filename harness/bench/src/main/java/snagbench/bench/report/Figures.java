package snagbench.bench.report;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.OptionalLong;

/** Times as people read them. */
final class Figures {
    private static final long MICROS_PER_SECOND = 1_000_000;

    private Figures() {}

    /** Milliseconds with one decimal; a dash where there is no figure. */
    static String millis(OptionalLong micros) {
        return micros.isPresent() ? millis(micros.getAsLong()) : "-";
    }

    static String millis(long micros) {
        return BigDecimal.valueOf(micros, 3).setScale(1, RoundingMode.HALF_EVEN).toPlainString() + " ms";
    }

    /** Signed, so that a miss cannot be taken for a margin. */
    static String margin(OptionalLong micros) {
        if (micros.isEmpty()) {
            return "-";
        }
        return (micros.getAsLong() >= 0 ? "+" : "") + millis(micros.getAsLong());
    }

    static String seconds(long micros) {
        return BigDecimal.valueOf(micros)
                        .divide(BigDecimal.valueOf(MICROS_PER_SECOND), 1, RoundingMode.HALF_EVEN)
                        .toPlainString()
                + " s";
    }
}
