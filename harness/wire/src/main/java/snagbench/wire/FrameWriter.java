package snagbench.wire;

import java.util.zip.CRC32;

/**
 * Makes one frame at a time: a CBOR array, its CRC-32 (ISO-HDLC, little-endian), both in COBS, then 0x00. It
 * allocates nothing after construction.
 *
 * <p>This class is not thread-safe.
 */
public final class FrameWriter {
    /** Bytes of the checksum. */
    static final int CRC_BYTES = 4;

    private final int longestFrame;
    private final CborWriter payload;
    private final CRC32 crc = new CRC32();
    private final byte[] checked;
    private final byte[] frame;
    private int length;

    /**
     * Makes frames up to a length.
     *
     * @param longestFrame bytes with the delimiter, at least 64
     * @throws IllegalArgumentException if below 64
     */
    public FrameWriter(int longestFrame) {
        if (longestFrame < Wire.SMALLEST_FRAME) {
            throw new IllegalArgumentException("longest frame of " + longestFrame + " bytes, at least 64 wanted");
        }
        this.longestFrame = longestFrame;
        this.payload = new CborWriter(longestFrame);
        this.checked = new byte[longestFrame + CRC_BYTES];
        this.frame = new byte[Cobs.longestEncoded(checked.length) + 1];
    }

    /**
     * Starts a frame; what was begun before is forgotten.
     *
     * @return takes the payload, one flat array
     */
    public CborWriter begin() {
        payload.clear();
        length = 0;
        return payload;
    }

    /**
     * Closes the frame.
     *
     * @return false if nothing was written, or more than fits: there is no frame then
     */
    public boolean end() {
        length = 0;
        int bytes = payload.length();
        if (bytes == 0 || payload.overflowed()) {
            return false;
        }
        System.arraycopy(payload.buffer(), 0, checked, 0, bytes);
        crc.reset();
        crc.update(checked, 0, bytes);
        int sum = (int) crc.getValue();
        for (int i = 0; i < CRC_BYTES; i++) {
            checked[bytes + i] = (byte) (sum >>> (8 * i));
        }
        int encoded = Cobs.encode(checked, bytes + CRC_BYTES, frame);
        if (encoded + 1 > longestFrame) {
            return false;
        }
        frame[encoded] = 0;
        length = encoded + 1;
        return true;
    }

    /**
     * The buffer that holds the frame, not a copy.
     *
     * @return the buffer; the first {@link #length()} bytes count
     */
    public byte[] frame() {
        return frame;
    }

    /**
     * Length of the closed frame.
     *
     * @return bytes with the delimiter; 0 when there is none
     */
    public int length() {
        return length;
    }
}
