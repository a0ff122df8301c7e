package snagbench.bench.evidence;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** Shares as people read them. */
public final class Percent {
    private Percent() {}

    /**
     * A share as it was written.
     *
     * @param share from 0 to 1
     * @return such as "99.9 %"
     */
    public static String of(double share) {
        return BigDecimal.valueOf(share)
                        .movePointRight(2)
                        .round(new MathContext(12))
                        .stripTrailingZeros()
                        .toPlainString()
                + " %";
    }

    /**
     * A bound, with one decimal and never better than it is: "90.0 %" is not said of 89.96 %.
     *
     * @param share from 0 to 1
     * @return such as "90.0 %"
     */
    public static String atLeast(double share) {
        return BigDecimal.valueOf(share).movePointRight(2).setScale(1, RoundingMode.FLOOR) + " %";
    }
}
