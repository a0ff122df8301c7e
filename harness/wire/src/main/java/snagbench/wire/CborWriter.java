package snagbench.wire;

import java.nio.charset.StandardCharsets;

/**
 * Writes one flat CBOR array (RFC 8949) of integers and short texts into a fixed buffer: definite lengths, shortest
 * heads. A value that does not fit latches {@link #overflowed()}; nothing is thrown and nothing is allocated.
 *
 * <p>This class is not thread-safe.
 */
public final class CborWriter {
    private static final int UNSIGNED = 0;
    private static final int NEGATIVE = 1;
    private static final int TEXT = 3;
    private static final int ARRAY = 4;

    private final byte[] buffer;
    private int length;
    private boolean overflowed;

    /**
     * Writes into a buffer of its own.
     *
     * @param capacity bytes, at least 1
     */
    public CborWriter(int capacity) {
        this.buffer = new byte[capacity];
    }

    /** Forgets what was written. */
    public void clear() {
        length = 0;
        overflowed = false;
    }

    /**
     * Writes the head of an array.
     *
     * @param items how many follow, 0 or more
     */
    public void array(int items) {
        head(ARRAY, items);
    }

    /**
     * Writes an integer in its shortest form.
     *
     * @param value any 64-bit value
     */
    public void integer(long value) {
        if (value >= 0) {
            head(UNSIGNED, value);
        } else {
            head(NEGATIVE, ~value);
        }
    }

    /**
     * Writes a text. The encoding to UTF-8 allocates: texts are for the greeting and the description only.
     *
     * @param text any text
     */
    public void text(String text) {
        byte[] utf8 = text.getBytes(StandardCharsets.UTF_8);
        head(TEXT, utf8.length);
        if (buffer.length - length < utf8.length) {
            overflowed = true;
            return;
        }
        System.arraycopy(utf8, 0, buffer, length, utf8.length);
        length += utf8.length;
    }

    private void head(int major, long argument) {
        int type = major << 5;
        if (buffer.length - length < 9) {
            headNearTheEnd(type, argument);
            return;
        }
        if (argument < 24) {
            buffer[length++] = (byte) (type | (int) argument);
        } else if (argument <= 0xFF) {
            buffer[length++] = (byte) (type | 24);
            buffer[length++] = (byte) argument;
        } else if (argument <= 0xFFFF) {
            buffer[length++] = (byte) (type | 25);
            bigEndian(argument, 2);
        } else if (argument <= 0xFFFFFFFFL) {
            buffer[length++] = (byte) (type | 26);
            bigEndian(argument, 4);
        } else {
            buffer[length++] = (byte) (type | 27);
            bigEndian(argument, 8);
        }
    }

    private void headNearTheEnd(int type, long argument) {
        int bytes = argument < 24 ? 0 : argument <= 0xFF ? 1 : argument <= 0xFFFF ? 2 : argument <= 0xFFFFFFFFL ? 4 : 8;
        if (overflowed || buffer.length - length < 1 + bytes) {
            overflowed = true;
            return;
        }
        int additional = bytes == 0 ? (int) argument : bytes == 1 ? 24 : bytes == 2 ? 25 : bytes == 4 ? 26 : 27;
        buffer[length++] = (byte) (type | additional);
        bigEndian(argument, bytes);
    }

    private void bigEndian(long argument, int bytes) {
        for (int shift = 8 * (bytes - 1); shift >= 0; shift -= 8) {
            buffer[length++] = (byte) (argument >>> shift);
        }
    }

    /**
     * Tells whether something did not fit since the last {@link #clear()}.
     *
     * @return true if what is in the buffer is not whole
     */
    public boolean overflowed() {
        return overflowed;
    }

    /**
     * How much is written.
     *
     * @return bytes from the start of {@link #buffer()}
     */
    public int length() {
        return length;
    }

    /**
     * The buffer itself, not a copy.
     *
     * @return the buffer; the first {@link #length()} bytes count
     */
    public byte[] buffer() {
        return buffer;
    }
}
