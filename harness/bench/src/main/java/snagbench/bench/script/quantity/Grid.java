package snagbench.bench.script.quantity;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;

/**
 * Values in whole steps of a unit. All of it is exact: no figure passes through a floating-point number.
 *
 * @param unit symbol of the unit; empty for none
 * @param step above 0, in the unit
 */
public record Grid(String unit, BigDecimal step) {
    /** Times in whole microseconds. */
    public static final Grid MICROSECONDS = new Grid("us", BigDecimal.ONE);

    /**
     * Tells whether a unit fits: it is the grid's own, or converts into it.
     *
     * @param symbol of a unit; empty for none
     * @return true if it fits
     */
    public boolean takes(String symbol) {
        return factor(symbol).isPresent();
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
        Factor factor = factor(quantity.unit())
                .orElseThrow(() -> new IllegalArgumentException(quantity + " does not fit " + unit));
        return quantity.number().multiply(factor.times).divide(factor.per.multiply(step), MathContext.DECIMAL128);
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
        Factor factor = factor(quantity.unit())
                .orElseThrow(() -> new IllegalArgumentException(quantity + " does not fit " + unit));
        BigDecimal dividend = quantity.number().multiply(factor.times);
        return dividend.divide(factor.per.multiply(step), 0, mode).toBigInteger();
    }

    private Optional<Factor> factor(String symbol) {
        if (Unit.plain(symbol).equals(Unit.plain(unit))) {
            return Optional.of(new Factor(BigDecimal.ONE, BigDecimal.ONE));
        }
        Optional<Unit> from = Unit.of(symbol);
        Optional<Unit> to = Unit.of(unit);
        if (from.isEmpty() || to.isEmpty() || from.get().dimension() != to.get().dimension()) {
            return Optional.empty();
        }
        return Optional.of(new Factor(from.get().factor(), to.get().factor()));
    }

    /** A quotient that is not worked out, since it may have no end. */
    private record Factor(BigDecimal times, BigDecimal per) {}
}
