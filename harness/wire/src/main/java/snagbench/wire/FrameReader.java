package snagbench.wire;

import java.util.zip.CRC32;

/**
 * Takes bytes as they come, cut anywhere, and finds the good frames among them. A bad frame (broken stuffing, too long,
 * wrong checksum) is counted and dropped; reading finds its feet at the next 0x00. It allocates nothing after
 * construction.
 *
 * <p>This class is not thread-safe.
 */
public final class FrameReader {
    private final CobsDecoder stuffed;
    private final CRC32 crc = new CRC32();
    private final CborReader payload = new CborReader();

    private long goodFrames;
    private long badFrames;

    /**
     * Reads frames up to a length; longer ones are bad.
     *
     * @param longestFrame bytes with the delimiter, at least 64
     * @throws IllegalArgumentException if below 64
     */
    public FrameReader(int longestFrame) {
        if (longestFrame < Wire.SMALLEST_FRAME) {
            throw new IllegalArgumentException("longest frame of " + longestFrame + " bytes, at least 64 wanted");
        }
        this.stuffed = new CobsDecoder(longestFrame - 1);
    }

    /**
     * Takes the next byte of the line.
     *
     * @param next the byte
     * @return true if it closed a good frame, which {@link #payload()} then holds until the next byte
     */
    public boolean accept(byte next) {
        if (next == 0) {
            return close();
        }
        stuffed.accept(next);
        return false;
    }

    private boolean close() {
        int bytes = stuffed.length() - FrameWriter.CRC_BYTES;
        boolean good = stuffed.whole() && bytes > 0 && checksumFits(stuffed.data(), bytes);
        if (good) {
            goodFrames++;
            payload.reset(stuffed.data(), 0, bytes);
        } else if (!stuffed.empty()) {
            badFrames++;
        }
        stuffed.clear();
        return good;
    }

    private boolean checksumFits(byte[] data, int bytes) {
        crc.reset();
        crc.update(data, 0, bytes);
        int sum = (int) crc.getValue();
        for (int i = 0; i < FrameWriter.CRC_BYTES; i++) {
            if (data[bytes + i] != (byte) (sum >>> (8 * i))) {
                return false;
            }
        }
        return true;
    }

    /**
     * What the last good frame holds; valid until the next byte is accepted.
     *
     * @return a reader at the head of the array
     */
    public CborReader payload() {
        return payload;
    }

    /**
     * The bytes behind {@link #payload()}, for digests over them; not a copy.
     *
     * @return the buffer, in which {@link CborReader#position()} counts
     */
    public byte[] bytes() {
        return stuffed.data();
    }

    /**
     * Good frames so far.
     *
     * @return a count from construction on
     */
    public long goodFrames() {
        return goodFrames;
    }

    /**
     * Bad frames so far. Two delimiters in a row are not one.
     *
     * @return a count from construction on
     */
    public long badFrames() {
        return badFrames;
    }
}
