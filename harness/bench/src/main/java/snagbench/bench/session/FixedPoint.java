package snagbench.bench.session;

import java.math.BigInteger;

/** Rates as the probe takes them: steps per microsecond times 2^32. */
final class FixedPoint {
    private static final int RATE_BITS = 32;

    private FixedPoint() {}

    /**
     * The rate that reaches an amount in a time, rounded away from zero so that it is not late.
     *
     * @param steps the amount, in steps
     * @param micros the time, in microseconds; 0 for at once
     * @return the rate; 0 for at once, also where the rate is too great for 32 bits
     */
    static int rate(int steps, long micros) {
        if (micros == 0 || steps == 0) {
            return 0;
        }
        BigInteger scaled = BigInteger.valueOf(Math.abs((long) steps)).shiftLeft(RATE_BITS);
        BigInteger[] parts = scaled.divideAndRemainder(BigInteger.valueOf(micros));
        BigInteger up = parts[1].signum() == 0 ? parts[0] : parts[0].add(BigInteger.ONE);
        return up.bitLength() > 31 ? 0 : steps > 0 ? up.intValue() : -up.intValue();
    }
}
