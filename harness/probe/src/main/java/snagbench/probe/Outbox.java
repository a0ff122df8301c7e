package snagbench.probe;

import snagbench.wire.FrameWriter;

/** Frames that the line has not taken yet. A frame goes in whole or not at all, and nothing waits. */
final class Outbox {
    private final byte[] bytes;
    private int from;
    private int to;

    Outbox(int size) {
        bytes = new byte[size];
    }

    boolean hasRoom(int frameBytes) {
        return bytes.length - (to - from) >= frameBytes;
    }

    boolean add(FrameWriter frame) {
        return add(frame.frame(), frame.length());
    }

    boolean add(byte[] frame, int length) {
        if (length == 0 || !hasRoom(length)) {
            return false;
        }
        if (bytes.length - to < length) {
            System.arraycopy(bytes, from, bytes, 0, to - from);
            to -= from;
            from = 0;
        }
        System.arraycopy(frame, 0, bytes, to, length);
        to += length;
        return true;
    }

    void flush(ProbeLine line) {
        if (from == to) {
            return;
        }
        from += line.write(bytes, from, to - from);
        if (from == to) {
            from = 0;
            to = 0;
        }
    }
}
