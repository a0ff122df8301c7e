package snagbench.bench.script.quantity;

import static javax.measure.MetricPrefix.CENTI;
import static javax.measure.MetricPrefix.KILO;
import static javax.measure.MetricPrefix.MICRO;
import static javax.measure.MetricPrefix.MILLI;

import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.measure.UnitConverter;
import tech.units.indriya.AbstractUnit;
import tech.units.indriya.function.MultiplyConverter;
import tech.units.indriya.unit.BaseUnit;
import tech.units.indriya.unit.UnitDimension;
import tech.units.indriya.unit.Units;

/**
 * A unit that converts into others: one of a table, or products and quotients of those, such as "mm/s2" or "N.m". What converts
 * into what, and how, is the units library's (JSR 385); the table says how units are written.
 */
public final class Unit {
    /**
     * The degree, as a base unit of its own: in the International System an angle is a plain number, which would make "3 %" an
     * angle.
     */
    private static final javax.measure.Unit<?> DEGREE = new BaseUnit<>("deg", UnitDimension.parse('\u03B1'));

    private static final javax.measure.Unit<?> RADIAN =
            DEGREE.multiply(180).transform(MultiplyConverter.ofPiExponent(-1));

    // Prefixes as in the International System of Units (SI brochure, 9th edition, table 7); 1 min = 60 s (table 8);
    // 1 bar = 100 kPa. Turns per minute count angle: 1 rpm = 360 deg/min.
    private static final Map<String, javax.measure.Unit<?>> TABLE = table();

    private static final Map<String, String> OTHER_SPELLINGS = Map.of(
            "\u00B0", "deg",
            "\u00B0C", "degC",
            "\u03A9", "Ohm",
            "\u2126", "Ohm",
            "ohm", "Ohm",
            "Nm", "N.m",
            "mNm", "mN.m",
            "1/min", "rpm");

    private static final Pattern POWER = Pattern.compile("([^0-9^]+)\\^?([23]?)");
    private static final int MOST_FACTORS = 6;

    private final String symbol;
    private final javax.measure.Unit<?> unit;

    private Unit(String symbol, javax.measure.Unit<?> unit) {
        this.symbol = symbol;
        this.unit = unit;
    }

    private static Map<String, javax.measure.Unit<?>> table() {
        Map<String, javax.measure.Unit<?>> table = new LinkedHashMap<>();
        table.put("um", MICRO(Units.METRE));
        table.put("mm", MILLI(Units.METRE));
        table.put("cm", CENTI(Units.METRE));
        table.put("m", Units.METRE);
        table.put("mm/s", MILLI(Units.METRE).divide(Units.SECOND));
        table.put("cm/s", CENTI(Units.METRE).divide(Units.SECOND));
        table.put("m/s", Units.METRE.divide(Units.SECOND));
        table.put("deg", DEGREE);
        table.put("rad", RADIAN);
        table.put("deg/s", DEGREE.divide(Units.SECOND));
        table.put("rpm", DEGREE.multiply(360).divide(Units.MINUTE));
        table.put("rad/s", RADIAN.divide(Units.SECOND));
        table.put("uA", MICRO(Units.AMPERE));
        table.put("mA", MILLI(Units.AMPERE));
        table.put("A", Units.AMPERE);
        table.put("uV", MICRO(Units.VOLT));
        table.put("mV", MILLI(Units.VOLT));
        table.put("V", Units.VOLT);
        table.put("mOhm", MILLI(Units.OHM));
        table.put("Ohm", Units.OHM);
        table.put("kOhm", KILO(Units.OHM));
        table.put("mW", MILLI(Units.WATT));
        table.put("W", Units.WATT);
        table.put("kW", KILO(Units.WATT));
        table.put("%", Units.PERCENT);
        table.put("g", Units.GRAM);
        table.put("kg", Units.KILOGRAM);
        table.put("mN", MILLI(Units.NEWTON));
        table.put("N", Units.NEWTON);
        table.put("kN", KILO(Units.NEWTON));
        table.put("mN.m", MILLI(Units.NEWTON).multiply(Units.METRE));
        table.put("N.m", Units.NEWTON.multiply(Units.METRE));
        table.put("Pa", Units.PASCAL);
        table.put("kPa", KILO(Units.PASCAL));
        table.put("bar", Units.PASCAL.multiply(100_000));
        table.put("degC", Units.CELSIUS);
        table.put("K", Units.KELVIN);
        table.put("Hz", Units.HERTZ);
        table.put("kHz", KILO(Units.HERTZ));
        table.put("us", MICRO(Units.SECOND));
        table.put("ms", MILLI(Units.SECOND));
        table.put("s", Units.SECOND);
        table.put("min", Units.MINUTE);
        return table;
    }

    /**
     * Finds a unit.
     *
     * @param symbol exactly, but for the micro sign, which may also be written {@code u}, and for a few usual spellings, such
     *     as {@code °C} for {@code degC}
     * @return the unit, if it is in the table or made of such
     */
    public static Optional<Unit> of(String symbol) {
        String plain = plain(symbol);
        javax.measure.Unit<?> known = TABLE.get(plain);
        return known != null
                ? Optional.of(new Unit(plain, known))
                : combined(plain).map(unit -> new Unit(plain, unit));
    }

    /** A product or quotient: factors with "." between them, divisors each behind a "/". */
    private static Optional<javax.measure.Unit<?>> combined(String symbol) {
        String[] parts = symbol.split("/", -1);
        javax.measure.Unit<?> made = AbstractUnit.ONE;
        int factors = 0;
        for (int part = 0; part < parts.length; part++) {
            for (String factor : parts[part].split("\\.", -1)) {
                boolean one = part == 0 && factor.equals("1") && parts.length > 1;
                Optional<javax.measure.Unit<?>> found = one ? Optional.of(AbstractUnit.ONE) : power(factor);
                if (found.isEmpty() || ++factors > MOST_FACTORS) {
                    return Optional.empty();
                }
                made = part == 0 ? made.multiply(found.get()) : made.divide(found.get());
            }
        }
        return factors > 1 || symbol.matches(".*[23]") ? Optional.of(made) : Optional.empty();
    }

    private static Optional<javax.measure.Unit<?>> power(String factor) {
        Matcher matcher = POWER.matcher(factor);
        javax.measure.Unit<?> base = matcher.matches() ? TABLE.get(plain(matcher.group(1))) : null;
        // An offset, as of degrees Celsius, has no meaning in a product.
        if (base == null || base.equals(Units.CELSIUS)) {
            return Optional.empty();
        }
        String exponent = matcher.group(2);
        return Optional.of(exponent.isEmpty() ? base : base.pow(Integer.parseInt(exponent)));
    }

    /**
     * How it is written.
     *
     * @return its symbol
     */
    public String symbol() {
        return symbol;
    }

    /**
     * How to convert a figure in this unit into one in another; empty where the two measure different things.
     *
     * @param other the other unit
     * @return a converter of the units library
     */
    Optional<UnitConverter> converterTo(Unit other) {
        if (!unit.getDimension().equals(other.unit.getDimension())) {
            return Optional.empty();
        }
        try {
            return Optional.of(unit.getConverterToAny(other.unit));
        } catch (javax.measure.IncommensurableException e) {
            return Optional.empty();
        }
    }

    /**
     * The units into which one of this symbol converts.
     *
     * @param symbol of a unit, in the table or not
     * @return symbols of the table, the smallest unit first; the symbol alone where nothing in the table fits
     */
    public static List<String> fitting(String symbol) {
        Optional<Unit> unit = of(symbol);
        List<String> found = TABLE.entrySet().stream()
                .map(entry -> new Unit(entry.getKey(), entry.getValue()))
                .filter(one -> unit.isPresent() && one.converterTo(unit.get()).isPresent())
                .sorted(Comparator.comparingDouble(one -> one.size(unit.orElseThrow())))
                .map(Unit::symbol)
                .toList();
        return found.isEmpty() ? List.of(symbol) : found;
    }

    private double size(Unit in) {
        UnitConverter converter = converterTo(in).orElseThrow();
        return converter.convert(1.0) - converter.convert(0.0);
    }

    /** The symbol with u for the micro sign (U+00B5) and the Greek letter (U+03BC) that looks like it; in its usual spelling. */
    static String plain(String symbol) {
        String letters = symbol.replace('\u00B5', 'u').replace('\u03BC', 'u').replace('\u00B7', '.');
        return OTHER_SPELLINGS.getOrDefault(letters, letters);
    }
}
