package snagbench.wire;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;

/**
 * Reads one flat CBOR array (RFC 8949) of integers and short texts. What it does not understand (floats, maps, nested
 * or indefinite items, heads that are not the shortest) latches {@link #failed()}; from then on integers read as 0 and texts as empty. It
 * throws nothing and, texts apart, allocates nothing.
 *
 * <p>This class is not thread-safe.
 */
public final class CborReader {
    private static final byte[] NOTHING = new byte[0];

    private byte[] buffer = NOTHING;
    private int position;
    private int end;
    private boolean failed;

    /** Starts with nothing to read. */
    public CborReader() {}

    /**
     * Starts on new bytes. They are not copied.
     *
     * @param bytes holds the array
     * @param from first byte
     * @param to after the last byte
     */
    public void reset(byte[] bytes, int from, int to) {
        buffer = bytes;
        position = from;
        end = to;
        failed = false;
    }

    /**
     * Reads the head of an array.
     *
     * @return how many items follow, 0 or more
     */
    public int array() {
        long items = head(4);
        if (items > end - position) {
            fail();
        }
        return failed ? 0 : (int) items;
    }

    /**
     * Reads an integer of 64 bits.
     *
     * @return the value; 0 when failed
     */
    public long integer() {
        if (position < end) {
            int initial = buffer[position] & 0xFF;
            if (initial < 24) {
                position++;
                return initial;
            }
            int major = initial >>> 5;
            if (major <= 1) {
                long argument = head(major);
                if (argument >= 0) {
                    return major == 0 ? argument : ~argument;
                }
            }
        }
        return fail();
    }

    /**
     * Reads an integer that must fit 32 signed bits.
     *
     * @return the value; 0 when failed
     */
    public int int32() {
        long value = integer();
        if (value != (int) value) {
            return fail();
        }
        return (int) value;
    }

    /**
     * Reads an integer that must fit 32 unsigned bits.
     *
     * @return the bits of the value; 0 when failed
     */
    public int uint32() {
        long value = integer();
        if (value >>> 32 != 0) {
            return fail();
        }
        return (int) value;
    }

    /**
     * Reads a text, which must be well-formed UTF-8.
     *
     * @return the text; empty when failed
     */
    public String text() {
        long bytes = head(3);
        if (bytes > end - position) {
            fail();
        }
        if (failed) {
            return "";
        }
        ByteBuffer utf8 = ByteBuffer.wrap(buffer, position, (int) bytes);
        position += (int) bytes;
        try {
            return StandardCharsets.UTF_8.newDecoder().decode(utf8).toString();
        } catch (CharacterCodingException malformed) {
            fail();
            return "";
        }
    }

    /** Latches the failure and leaves nothing to be read, so that the way of good bytes need not look at the latch. */
    private int fail() {
        failed = true;
        position = end;
        return 0;
    }

    /** Argument of the next head, which must be of the major type; -1 when failed or beyond 63 bits. */
    private long head(int major) {
        if (position >= end || (buffer[position] & 0xFF) >>> 5 != major) {
            fail();
            return -1;
        }
        int additional = buffer[position++] & 0x1F;
        if (additional < 24) {
            return additional;
        }
        int bytes = additional > 27 ? 0 : 1 << (additional - 24);
        if (bytes == 0 || bytes > end - position) {
            fail();
            return -1;
        }
        long argument = 0;
        for (int i = 0; i < bytes; i++) {
            argument = argument << 8 | (buffer[position++] & 0xFF);
        }
        // Shortest heads only: one value has one form, so that a digest over the bytes is one over the values.
        long smallest = bytes == 1 ? 24 : 1L << (4 * bytes);
        if (argument < smallest) {
            fail();
            return -1;
        }
        return argument;
    }

    /**
     * Tells whether something was not understood since the last {@link #reset}.
     *
     * @return true once anything failed
     */
    public boolean failed() {
        return failed;
    }

    /**
     * Tells whether all was read and understood.
     *
     * @return true at the end, with nothing failed
     */
    public boolean complete() {
        return !failed && position == end;
    }

    /**
     * Where the next item starts.
     *
     * @return index into the bytes given to {@link #reset}; their end once anything failed
     */
    public int position() {
        return position;
    }
}
