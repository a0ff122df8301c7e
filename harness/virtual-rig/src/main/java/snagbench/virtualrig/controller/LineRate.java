package snagbench.virtualrig.controller;

/**
 * How fast the line carries bytes, the same each way.
 *
 * @param nanosPerByte 0 where bytes are there at once
 * @param transmitBuffer how many bytes the controller can leave to the line at a time
 */
public record LineRate(long nanosPerByte, int transmitBuffer) {
    /** Bytes are there at once, and there is room for as many as a bench may leave lying. */
    public static final LineRate UNLIMITED = new LineRate(0, 1 << 18);

    /** Refuses a line that takes nothing. */
    public LineRate {
        if (nanosPerByte < 0 || transmitBuffer <= 0) {
            throw new IllegalArgumentException("line with " + nanosPerByte + " ns a byte and room for " + transmitBuffer
                    + " bytes; wanted at least 0 and above 0");
        }
    }

    /**
     * A serial line with 8 data bits, no parity and one stop bit: ten bits a byte.
     *
     * @param baud bits a second
     * @param transmitBuffer how many bytes the controller can leave to the line at a time
     * @return the rate
     */
    public static LineRate serial(int baud, int transmitBuffer) {
        return new LineRate(10_000_000_000L / baud, transmitBuffer);
    }
}
