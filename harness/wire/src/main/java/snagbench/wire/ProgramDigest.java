package snagbench.wire;

import java.util.zip.CRC32;

/**
 * Digest of what was loaded onto a rig: CRC-32 (ISO-HDLC) over each message's type, in one byte, and its fields as they
 * stand in CBOR on the line, message after message. It guards against loss and mix-up, not against malice.
 */
public final class ProgramDigest {
    private final CRC32 crc = new CRC32();
    private final CborWriter fields = new CborWriter(Wire.SMALLEST_FRAME);

    /** Starts with nothing loaded. */
    public ProgramDigest() {}

    /** Forgets all. */
    public void clear() {
        crc.reset();
    }

    /**
     * Adds a message to be sent.
     *
     * @param body entry, timing, term, point or guard
     */
    public void add(RequestBody body) {
        fields.clear();
        body.write(fields);
        add(body.type().code(), fields.buffer(), 0, fields.length());
    }

    /**
     * Adds a message as it came.
     *
     * @param type its code
     * @param bytes hold its fields in CBOR
     * @param from first byte behind the header
     * @param to after the last byte
     */
    public void add(int type, byte[] bytes, int from, int to) {
        crc.update(type);
        crc.update(bytes, from, to - from);
    }

    /**
     * The digest so far.
     *
     * @return 32 bits
     */
    public int value() {
        return (int) crc.getValue();
    }
}
