package snagbench.bench.script.quantity;

import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * A unit that converts into others.
 *
 * @param symbol how it is written
 * @param dimension what it measures
 * @param factor how many of the dimension's base unit one of it is; exact
 */
public record Unit(String symbol, Dimension dimension, BigDecimal factor) {
    // Prefixes as in the International System of Units (SI brochure, 9th edition, table 7); 1 min = 60 s (table 8).
    private static final List<Unit> ALL = List.of(
            unit("um", Dimension.LENGTH, "0.000001"),
            unit("mm", Dimension.LENGTH, "0.001"),
            unit("cm", Dimension.LENGTH, "0.01"),
            unit("m", Dimension.LENGTH, "1"),
            unit("mm/s", Dimension.SPEED, "0.001"),
            unit("cm/s", Dimension.SPEED, "0.01"),
            unit("m/s", Dimension.SPEED, "1"),
            unit("uA", Dimension.CURRENT, "0.000001"),
            unit("mA", Dimension.CURRENT, "0.001"),
            unit("A", Dimension.CURRENT, "1"),
            unit("uV", Dimension.VOLTAGE, "0.000001"),
            unit("mV", Dimension.VOLTAGE, "0.001"),
            unit("V", Dimension.VOLTAGE, "1"),
            unit("%", Dimension.RATIO, "0.01"),
            unit("g", Dimension.MASS, "0.001"),
            unit("kg", Dimension.MASS, "1"),
            unit("Hz", Dimension.FREQUENCY, "1"),
            unit("kHz", Dimension.FREQUENCY, "1000"),
            unit("us", Dimension.TIME, "0.000001"),
            unit("ms", Dimension.TIME, "0.001"),
            unit("s", Dimension.TIME, "1"),
            unit("min", Dimension.TIME, "60"));

    private static Unit unit(String symbol, Dimension dimension, String factor) {
        return new Unit(symbol, dimension, new BigDecimal(factor));
    }

    /**
     * Finds a unit.
     *
     * @param symbol exactly, but for the micro sign, which may also be written {@code u}
     * @return the unit, if the table has it
     */
    public static Optional<Unit> of(String symbol) {
        String plain = plain(symbol);
        return ALL.stream().filter(unit -> unit.symbol.equals(plain)).findFirst();
    }

    /**
     * The units into which one of this symbol converts.
     *
     * @param symbol of a unit, in the table or not
     * @return symbols, the smallest unit first; the symbol alone where the table does not have it
     */
    public static List<String> fitting(String symbol) {
        return of(symbol)
                .map(unit -> ALL.stream()
                        .filter(other -> other.dimension == unit.dimension)
                        .sorted(Comparator.comparing(Unit::factor))
                        .map(Unit::symbol)
                        .toList())
                .orElse(List.of(symbol));
    }

    /** The symbol with u for the micro sign (U+00B5) and the Greek letter (U+03BC) that looks like it. */
    static String plain(String symbol) {
        return symbol.replace('\u00B5', 'u').replace('\u03BC', 'u');
    }
}
