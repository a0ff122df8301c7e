package snagbench.bench.judge;

import java.math.BigDecimal;
import java.math.BigInteger;

/**
 * A positive rational factor from whole numbers to whole steps of a derived channel. Where the exact value lies between
 * two steps it is rounded outward, so that it lies within what is told.
 */
final class Ratio {
    private final BigInteger times;
    private final BigInteger per;

    private Ratio(BigInteger times, BigInteger per) {
        BigInteger common = times.gcd(per);
        this.times = times.divide(common);
        this.per = per.divide(common);
    }

    /** How many of the other steps one step is. */
    static Ratio of(BigDecimal step, BigDecimal otherStep) {
        int scale = Math.max(0, Math.max(step.scale(), otherStep.scale()));
        return new Ratio(
                step.setScale(scale).unscaledValue(), otherStep.setScale(scale).unscaledValue());
    }

    Ratio times(long factor) {
        return new Ratio(times.multiply(BigInteger.valueOf(factor)), per);
    }

    /** The square, for what is a root in the end. */
    Ratio squared() {
        return new Ratio(times.multiply(times), per.multiply(per));
    }

    /** The greatest whole number that is not above {@code number / divisor} times the factor. */
    long floor(long number, long divisor) {
        try {
            return Math.floorDiv(
                    Math.multiplyExact(number, times.longValueExact()),
                    Math.multiplyExact(divisor, per.longValueExact()));
        } catch (ArithmeticException tooLarge) {
            return saturated(floor(BigInteger.valueOf(number), BigInteger.valueOf(divisor)));
        }
    }

    /** The least whole number that is not below {@code number / divisor} times the factor. */
    long ceiling(long number, long divisor) {
        return -floor(-number, divisor);
    }

    private BigInteger floor(BigInteger number, BigInteger divisor) {
        BigInteger[] parts = number.multiply(times).divideAndRemainder(divisor.multiply(per));
        return parts[1].signum() < 0 ? parts[0].subtract(BigInteger.ONE) : parts[0];
    }

    /** The greatest whole number whose square is not above {@code number / divisor} times the factor. */
    long rootFloor(BigInteger number, long divisor) {
        return saturated(floor(number, BigInteger.valueOf(divisor)).sqrt());
    }

    /** The least whole number whose square is not below {@code number / divisor} times the factor. */
    long rootCeiling(BigInteger number, long divisor) {
        BigInteger ceiling = floor(number.negate(), BigInteger.valueOf(divisor)).negate();
        BigInteger root = ceiling.sqrt();
        return saturated(root.multiply(root).equals(ceiling) ? root : root.add(BigInteger.ONE));
    }

    /** Two factors with one divisor. */
    static Common common(Ratio one, Ratio other) {
        return new Common(one.times.multiply(other.per), other.times.multiply(one.per), one.per.multiply(other.per));
    }

    /**
     * Sums of two numbers, each with a factor of its own.
     *
     * @param one factor of the first
     * @param other factor of the second
     * @param per divisor of both
     */
    record Common(BigInteger one, BigInteger other, BigInteger per) {
        /** The greatest whole number that is not above the sum. */
        long floor(long first, long second) {
            BigInteger sum = BigInteger.valueOf(first)
                    .multiply(one)
                    .add(BigInteger.valueOf(second).multiply(other));
            return new Ratio(BigInteger.ONE, per).floor(sum);
        }

        /** The least whole number that is not below the sum. */
        long ceiling(long first, long second) {
            return -floor(-first, -second);
        }
    }

    private long floor(BigInteger number) {
        return saturated(floor(number, BigInteger.ONE));
    }

    private static long saturated(BigInteger value) {
        return value.bitLength() < Long.SIZE - 1 ? value.longValueExact() : value.signum() * (Long.MAX_VALUE / 2);
    }
}
