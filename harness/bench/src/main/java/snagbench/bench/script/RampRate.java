package snagbench.bench.script;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.util.OptionalInt;

/** How fast a ramp or a drift climbs, as a probe takes it: steps per microsecond times 2^32, in a signed number of 32 bits. */
public final class RampRate {
    private static final int FRACTION_BITS = 32;
    private static final BigDecimal MICROS_PER_SECOND = BigDecimal.valueOf(1_000_000);
    private static final BigInteger GREATEST = BigInteger.valueOf(Integer.MAX_VALUE);

    private RampRate() {}

    /**
     * The rate that reaches an amount in a time, rounded away from zero, so that the amount is not reached late.
     *
     * @param steps the amount, in steps of the channel
     * @param micros the time, in microseconds, at least 0; 0 for at once
     * @return the rate; 0 for at once and where there is nothing to add; empty where the ramp is steeper than 2^31 - 1
     */
    public static OptionalInt of(int steps, long micros) {
        if (micros == 0 || steps == 0) {
            return OptionalInt.of(0);
        }
        BigInteger rate = dividedUp(scaled(steps), BigInteger.valueOf(micros));
        if (rate.compareTo(GREATEST) > 0) {
            return OptionalInt.empty();
        }
        return OptionalInt.of(steps > 0 ? rate.intValueExact() : -rate.intValueExact());
    }

    /**
     * The rate of a drift, rounded away from zero, so that it is never slower than what was asked for.
     *
     * @param stepsPerSecond in steps of the channel
     * @return the rate; empty where it is faster than 2^31 - 1, which is some 500,000 steps per second
     */
    public static OptionalInt perSecond(BigDecimal stepsPerSecond) {
        BigDecimal scaled = stepsPerSecond.multiply(new BigDecimal(BigInteger.ONE.shiftLeft(FRACTION_BITS)));
        BigInteger rate = scaled.divide(MICROS_PER_SECOND, 0, RoundingMode.UP).toBigInteger();
        return rate.abs().compareTo(GREATEST) > 0 ? OptionalInt.empty() : OptionalInt.of(rate.intValueExact());
    }

    /**
     * The fastest drift that a probe can reckon.
     *
     * @return in whole steps per second
     */
    public static int mostStepsPerSecond() {
        return (int) ((GREATEST.longValueExact() * 1_000_000) >>> FRACTION_BITS);
    }

    /**
     * The shortest time in which a ramp can reach an amount; some 2 microseconds a step.
     *
     * @param steps the amount, in steps of the channel
     * @return the time, in microseconds
     */
    public static long shortestMicros(int steps) {
        return dividedUp(scaled(steps), GREATEST).longValueExact();
    }

    private static BigInteger scaled(int steps) {
        return BigInteger.valueOf(Math.abs((long) steps)).shiftLeft(FRACTION_BITS);
    }

    private static BigInteger dividedUp(BigInteger dividend, BigInteger divisor) {
        BigInteger[] parts = dividend.divideAndRemainder(divisor);
        return parts[1].signum() == 0 ? parts[0] : parts[0].add(BigInteger.ONE);
    }
}
