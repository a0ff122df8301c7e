package snagbench.bench.script.quantity;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;
import javax.measure.UnitConverter;
import tech.units.indriya.function.AbstractConverter;
import tech.units.indriya.function.RationalNumber;

/**
 * Values in whole steps of a unit. No figure passes through a floating-point number: conversions are exact, but for those that
 * have no end (radians and degrees), which are worked out to 34 digits.
 *
 * @param unit symbol of the unit; empty for none
 * @param step above 0, in the unit
 * @param ofDifferences whether its values are differences, so that units with another zero (degrees Celsius and kelvins) convert by
 *     their size alone
 */
public record Grid(String unit, BigDecimal step, boolean ofDifferences) {
    /** Times in whole microseconds. */
    public static final Grid MICROSECONDS = new Grid("us", BigDecimal.ONE);

    /**
     * A grid of values.
     *
     * @param unit symbol of the unit; empty for none
     * @param step above 0, in the unit
     */
    public Grid(String unit, BigDecimal step) {
        this(unit, step, false);
    }

    /**
     * The same grid for differences of its values.
     *
     * @return a grid
     */
    public Grid differences() {
        return new Grid(unit, step, true);
    }

    /**
     * Tells whether a unit fits: it is the grid's own, or converts into it.
     *
     * @param symbol of a unit; empty for none
     * @return true if it fits
     */
    public boolean takes(String symbol) {
        return converter(symbol).isPresent();
    }

    /**
     * Tells whether a quantity is a whole number of steps.
     *
     * @param quantity in a unit that fits
     * @return true if it is
     */
    public boolean has(Quantity quantity) {
        return floor(quantity).equals(ceiling(quantity));
    }

    /**
     * Rounds down.
     *
     * @param quantity in a unit that fits
     * @return the greatest number of steps that is not above it
     */
    public BigInteger floor(Quantity quantity) {
        return steps(quantity, RoundingMode.FLOOR);
    }

    /**
     * Rounds up.
     *
     * @param quantity in a unit that fits
     * @return the least number of steps that is not below it
     */
    public BigInteger ceiling(Quantity quantity) {
        return steps(quantity, RoundingMode.CEILING);
    }

    /**
     * A quantity in steps, not rounded to whole ones.
     *
     * @param quantity in a unit that fits
     * @return exact, or to 34 digits where the quotient has no end
     */
    public BigDecimal inSteps(Quantity quantity) {
        RationalNumber converted = converted(quantity);
        return new BigDecimal(converted.getDividend())
                .divide(new BigDecimal(converted.getDivisor()).multiply(step), MathContext.DECIMAL128);
    }

    /**
     * A number of steps as people read it.
     *
     * @param steps how many
     * @return figure and unit
     */
    public String show(BigInteger steps) {
        return new Quantity(step.multiply(new BigDecimal(steps)), unit).toString();
    }

    private BigInteger steps(Quantity quantity, RoundingMode mode) {
        RationalNumber converted = converted(quantity);
        BigDecimal perStep = new BigDecimal(converted.getDivisor()).multiply(step);
        return new BigDecimal(converted.getDividend()).divide(perStep, 0, mode).toBigInteger();
    }

    /** The figure in the grid's own unit. */
    private RationalNumber converted(Quantity quantity) {
        UnitConverter converter = converter(quantity.unit())
                .orElseThrow(() -> new IllegalArgumentException(quantity + " does not fit " + unit));
        if (converter.isIdentity()) {
            return rational(quantity.number());
        }
        RationalNumber value = rational(converter.convert(rational(quantity.number())));
        return ofDifferences ? value.subtract(rational(converter.convert(RationalNumber.ZERO))) : value;
    }

    private Optional<UnitConverter> converter(String symbol) {
        if (Unit.plain(symbol).equals(Unit.plain(unit))) {
            return Optional.of(AbstractConverter.IDENTITY);
        }
        Optional<Unit> from = Unit.of(symbol);
        Optional<Unit> to = Unit.of(unit);
        return from.isEmpty() || to.isEmpty() ? Optional.empty() : from.get().converterTo(to.get());
    }

    private static RationalNumber rational(BigDecimal number) {
        BigInteger unscaled = number.unscaledValue();
        return number.scale() <= 0
                ? RationalNumber.of(unscaled.multiply(BigInteger.TEN.pow(-number.scale())), BigInteger.ONE)
                : RationalNumber.of(unscaled, BigInteger.TEN.pow(number.scale()));
    }

    private static RationalNumber rational(Number number) {
        if (number instanceof RationalNumber exact) {
            return exact;
        }
        return number instanceof BigInteger whole
                ? RationalNumber.of(whole, BigInteger.ONE)
                : rational(new BigDecimal(number.toString()));
    }
}
