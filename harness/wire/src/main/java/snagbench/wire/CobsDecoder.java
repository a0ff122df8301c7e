package snagbench.wire;

/**
 * Undoes COBS byte by byte as they come. Both forms of data that end in a full run of 254 are taken, with and without
 * the closing {@code 01}. It allocates nothing after construction.
 *
 * <p>This class is not thread-safe.
 */
final class CobsDecoder {
    private final byte[] data;

    /** Code bytes and runs so far, the begun run as if it were whole. */
    private int promised;

    private int length;

    /** Where the present run ends in data; a code byte is next when that is reached. */
    private int runEnd;

    private boolean zeroPending;
    private boolean tooLong;

    /**
     * Takes up to a number of bytes.
     *
     * @param longest encoded bytes, the delimiter not counted, at least 1
     */
    CobsDecoder(int longest) {
        this.data = new byte[longest];
    }

    /** Starts anew behind a delimiter. */
    void clear() {
        promised = 0;
        length = 0;
        runEnd = 0;
        zeroPending = false;
        tooLong = false;
    }

    /**
     * Takes the next encoded byte.
     *
     * @param next not 0
     */
    void accept(byte next) {
        if (length < runEnd) {
            data[length++] = next;
            return;
        }
        if (tooLong) {
            return;
        }
        if (zeroPending) {
            data[length++] = 0;
        }
        int code = next & 0xFF;
        promised += code;
        // Decoding never gives more bytes than it takes, so this alone keeps within data.
        tooLong = promised > data.length;
        runEnd = tooLong ? length : length + code - 1;
        zeroPending = code != 0xFF;
    }

    /**
     * Tells whether nothing was taken.
     *
     * @return true right after a delimiter
     */
    boolean empty() {
        return promised == 0;
    }

    /**
     * Tells whether what was taken is well-formed and not too long; a delimiter may come now.
     *
     * @return false in the middle of a run, when empty, or too long
     */
    boolean whole() {
        return !empty() && !tooLong && length == runEnd;
    }

    /**
     * How many bytes are decoded.
     *
     * @return bytes from the start of {@link #data()}
     */
    int length() {
        return length;
    }

    /**
     * The buffer itself, not a copy.
     *
     * @return the buffer; the first {@link #length()} bytes count
     */
    byte[] data() {
        return data;
    }
}
