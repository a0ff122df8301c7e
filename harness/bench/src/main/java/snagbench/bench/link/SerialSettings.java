package snagbench.bench.link;

import java.time.Duration;

/**
 * How to use a serial port.
 *
 * @param baud bits a second, above 0
 * @param longestWrite how long the device may take no bytes until the port is closed and counts as lost
 * @param lastWords how long to wait, when closing, for bytes that the driver has not sent yet
 */
public record SerialSettings(int baud, Duration longestWrite, Duration lastWords) {
    private static final Duration USUAL_WRITE = Duration.ofSeconds(2);
    private static final Duration USUAL_LAST_WORDS = Duration.ofSeconds(1);

    /** What a driver holds on its way out, at most; common practice, no source. */
    private static final long DRIVER_BYTES = 4096;

    /** A start bit, 8 data bits, a stop bit. */
    private static final long BITS_PER_BYTE = 10;

    private static final long NANOS_PER_SECOND = 1_000_000_000;

    /** Checks the figures. */
    public SerialSettings {
        if (baud <= 0) {
            throw new IllegalArgumentException("baud of " + baud + ", wanted above 0");
        }
        if (longestWrite.isNegative() || longestWrite.isZero() || lastWords.isNegative()) {
            throw new IllegalArgumentException("times of " + longestWrite + " and " + lastWords + ", wanted above 0");
        }
    }

    /**
     * The usual bounds: beyond the time that the bytes take on the line, 2 s for a write and 1 s for last words.
     *
     * @param baud bits a second, above 0
     * @return settings
     */
    public static SerialSettings at(int baud) {
        Duration full = Duration.ofNanos(DRIVER_BYTES * BITS_PER_BYTE * NANOS_PER_SECOND / Math.max(baud, 1));
        // A write may find the driver full, and be as long again.
        return new SerialSettings(baud, USUAL_WRITE.plus(full.multipliedBy(2)), USUAL_LAST_WORDS.plus(full));
    }
}
