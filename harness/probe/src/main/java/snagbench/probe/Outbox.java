package snagbench.probe;

import snagbench.wire.FrameWriter;

/** Frames that the line has not taken yet. A frame goes in whole or not at all, and nothing waits. */
final class Outbox {
    private final byte[] bytes;
    private int from;
    private int to;
    private boolean midFrame;

    Outbox(int size) {
        bytes = new byte[size];
    }

    int length() {
        return to - from;
    }

    boolean isEmpty() {
        return from == to;
    }

    boolean add(FrameWriter frame) {
        return add(frame.frame(), frame.length());
    }

    boolean add(byte[] frame, int length) {
        if (length == 0 || bytes.length - length() < length) {
            return false;
        }
        if (bytes.length - to < length) {
            System.arraycopy(bytes, from, bytes, 0, length());
            to -= from;
            from = 0;
        }
        System.arraycopy(frame, 0, bytes, to, length);
        to += length;
        return true;
    }

    /** Takes back what was added since it had a length; nothing may have been flushed between. */
    void cutTo(int length) {
        to = from + length;
    }

    /** Gives the rest of a frame of which the line has taken a part; true if none is left open. */
    boolean finishFrame(ProbeLine line) {
        if (midFrame) {
            int end = from;
            while (bytes[end] != 0) {
                end++;
            }
            give(line, end + 1 - from);
        }
        return !midFrame;
    }

    void flush(ProbeLine line) {
        if (from != to) {
            give(line, to - from);
        }
    }

    private void give(ProbeLine line, int length) {
        int taken = line.write(bytes, from, length);
        if (taken <= 0) {
            return;
        }
        from += taken;
        // COBS leaves 0 for the end of a frame alone.
        midFrame = bytes[from - 1] != 0;
        if (from == to) {
            from = 0;
            to = 0;
        }
    }
}
