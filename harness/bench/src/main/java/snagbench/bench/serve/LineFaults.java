package snagbench.bench.serve;

/**
 * How bad a line is, the same in both directions. The faults strike each by itself, byte by byte.
 *
 * @param loss share of the bytes that are lost, from 0 up to, not including, 1
 * @param flip share of the bytes in which one bit is turned over, from 0 to below 1
 * @param doubling share of the bytes that come twice, from 0 to below 1
 * @param latencyMicros how much later each byte comes, in microseconds, at least 0
 * @param jitterMicros up to how much later still, in microseconds, at least 0: drawn evenly for each burst, which is what
 *     is sent in the same microsecond. Bytes never overtake each other
 */
public record LineFaults(double loss, double flip, double doubling, long latencyMicros, long jitterMicros) {
    /** A line without faults. */
    public static final LineFaults NONE = new LineFaults(0, 0, 0, 0, 0);

    /** Refuses what is out of range. */
    public LineFaults {
        requireShare("loss", loss);
        requireShare("flip", flip);
        requireShare("doubling", doubling);
        requireTime("latency", latencyMicros);
        requireTime("jitter", jitterMicros);
    }

    /**
     * A line with faults in bytes and no delay.
     *
     * @param loss share of the bytes that are lost
     * @param flip share of the bytes with a bit turned over
     * @param doubling share of the bytes that come twice
     * @return the faults
     */
    public static LineFaults ofBytes(double loss, double flip, double doubling) {
        return new LineFaults(loss, flip, doubling, 0, 0);
    }

    private static void requireShare(String name, double share) {
        if (!(share >= 0 && share < 1)) {
            throw new IllegalArgumentException(name + " of " + share + ", wanted a share from 0 to below 1");
        }
    }

    private static void requireTime(String name, long micros) {
        if (micros < 0) {
            throw new IllegalArgumentException(name + " of " + micros + " us, wanted at least 0");
        }
    }
}
