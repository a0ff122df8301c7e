package snagbench.wire;

/**
 * Consistent Overhead Byte Stuffing (Cheshire and Baker, IEEE/ACM Transactions on Networking 7(2), 1999): rewrites
 * bytes so that none is zero. Data that end in a full run of 254 are encoded in the short form, without the closing
 * {@code 01}; {@link CobsDecoder} takes both forms.
 */
final class Cobs {
    private static final int LONGEST_RUN = 254;

    private Cobs() {}

    /**
     * The most bytes that encoding can give.
     *
     * @param length bytes to encode, 0 or more
     * @return bytes, the delimiter not counted
     */
    static int longestEncoded(int length) {
        return length + Math.max(1, (length + LONGEST_RUN - 1) / LONGEST_RUN);
    }

    /**
     * Encodes. No delimiter is written.
     *
     * @param data from the first byte on
     * @param length how many bytes of data
     * @param out takes at least {@link #longestEncoded} bytes, from the first byte on
     * @return how many bytes were written
     */
    static int encode(byte[] data, int length, byte[] out) {
        int code = 0;
        int to = 1;
        int run = 1;
        for (int from = 0; from < length; from++) {
            byte next = data[from];
            if (next != 0) {
                out[to++] = next;
                run++;
                if (run <= LONGEST_RUN) {
                    continue;
                }
                out[code] = (byte) run;
                if (from == length - 1) {
                    return to;
                }
            } else {
                out[code] = (byte) run;
            }
            code = to++;
            run = 1;
        }
        out[code] = (byte) run;
        return to;
    }
}
