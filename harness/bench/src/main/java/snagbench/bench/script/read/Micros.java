package snagbench.bench.script.read;

import java.math.BigDecimal;

/** Shows times. */
final class Micros {
    private Micros() {}

    /** Such as "250 ms" or "1.5 ms". */
    static String show(long micros) {
        return BigDecimal.valueOf(micros, 3).stripTrailingZeros().toPlainString() + " ms";
    }
}
