package snagbench.bench.serve;

import java.io.ByteArrayOutputStream;

/**
 * What a serial receiver makes of bytes that were sent at another speed: it waits for the line to fall, takes that for a
 * start bit if the line is still low in its middle, and looks at the line in the middle of each of the bits that it
 * believes in. So a few per cent do no harm, and more gives garbage, as on a cable. A bad stop bit is let pass, as Linux
 * does in raw mode (both from memory).
 */
final class SpeedMismatch {
    private static final int BITS = 10;
    private static final int DATA_BITS = 8;

    private SpeedMismatch() {}

    /**
     * The bytes as they are heard; they were sent without a pause, and the line is quiet before and after.
     *
     * @param bytes as sent, from the first on
     * @param length how many
     * @param sentBaud speed of the sender
     * @param heardBaud speed of the receiver
     * @return what is heard, more or fewer bytes; none where either stands still
     */
    static byte[] heard(byte[] bytes, int length, int sentBaud, int heardBaud) {
        if (sentBaud <= 0 || heardBaud <= 0) {
            return new byte[0];
        }
        // The unit of time is such that both bits are whole: half a sender's bit, half a receiver's.
        long sentHalf = heardBaud;
        long heardHalf = sentBaud;
        long end = (long) length * BITS * 2 * sentHalf;
        ByteArrayOutputStream heard = new ByteArrayOutputStream(length);
        long bit = 0;
        while (bit < (long) length * BITS) {
            if (high(bytes, length, bit) || (bit > 0 && !high(bytes, length, bit - 1))) {
                bit++;
                continue;
            }
            long start = bit * 2 * sentHalf;
            if (high(bytes, length, (start + heardHalf) / (2 * sentHalf))) {
                bit++;
                continue;
            }
            int value = 0;
            for (int i = 0; i < DATA_BITS; i++) {
                long middle = start + (3 + 2L * i) * heardHalf;
                value |= high(bytes, length, middle / (2 * sentHalf)) ? 1 << i : 0;
            }
            heard.write(value);
            // From the middle of the stop bit on it waits for the line to fall again.
            long stop = Math.min(start + (2 * BITS - 1) * heardHalf, end);
            bit = Math.max(bit + 1, stop / (2 * sentHalf) + 1);
        }
        return heard.toByteArray();
    }

    private static boolean high(byte[] bytes, int length, long bit) {
        long index = bit / BITS;
        int place = (int) (bit % BITS);
        if (index >= length || place == BITS - 1) {
            return true;
        }
        return place > 0 && (bytes[(int) index] >>> (place - 1) & 1) == 1;
    }
}
