package snagbench.bench.report;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.judge.Reached;
import snagbench.bench.judge.ValueMargin;

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
     * The first of margins in value, which is the one to look at.
     *
     * @param margins least of each channel, those that were missed first
     * @return such as "+0.44 V", with "..." behind it where there are more; a dash where there is none
     */
    public static String value(List<ValueMargin> margins) {
        return margins.isEmpty() ? "-" : margins.get(0).show() + (margins.size() > 1 ? " ..." : "");
    }

    /**
     * When something was reached, from the strike on.
     *
     * @param reached if it was
     * @return such as "at +137.4 ms (tick 1042)"; "-" where it was not
     */
    public static String reached(Optional<Reached> reached) {
        return reached.map(one -> "at " + margin(OptionalLong.of(one.afterMicros())) + " (tick " + one.tick() + ")")
                .orElse("-");
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
