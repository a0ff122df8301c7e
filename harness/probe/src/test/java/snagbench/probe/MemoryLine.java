package snagbench.probe;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * A line in memory: what the bench sent, and what the rig gave, which may be less a tick than the rig would like. Reading
 * and writing allocate nothing, but for the growth of what is kept.
 */
final class MemoryLine implements ProbeLine {
    private byte[] toRig = new byte[1 << 12];
    private int from;
    private int to;
    private byte[] fromRig = new byte[1 << 14];
    private int given;
    private long givenInAll;
    private int roomLeft = Integer.MAX_VALUE;
    private int roomPerWrite = Integer.MAX_VALUE;
    private boolean keeps = true;
    private @Nullable ByteArrayOutputStream sent;

    /** Most bytes that the line takes from now on until told otherwise. */
    void takeAtMost(int bytes) {
        roomLeft = bytes;
    }

    /** Most bytes that the line takes in one go, however often it is asked. */
    void takeAtMostAWrite(int bytes) {
        roomPerWrite = bytes;
    }

    /** Counts what the rig gives from now on, at most so many bytes a write, and keeps nothing. */
    void onlyCount(int bytesPerWrite) {
        keeps = false;
        roomPerWrite = bytesPerWrite;
    }

    void send(byte[] bytes, int length) {
        if (sent != null) {
            sent.write(bytes, 0, length);
        }
        if (from == to) {
            from = 0;
            to = 0;
        }
        if (to + length > toRig.length) {
            toRig = Arrays.copyOf(toRig, 2 * (to + length));
        }
        System.arraycopy(bytes, 0, toRig, to, length);
        to += length;
    }

    /** The rig starts anew: what was on the way is lost. */
    void clear() {
        from = to;
        given = 0;
    }

    /** What was sent since this was asked last; nothing the first time. */
    byte[] takeSent() {
        byte[] bytes = sent == null ? new byte[0] : sent.toByteArray();
        sent = new ByteArrayOutputStream();
        return bytes;
    }

    int waitingForRig() {
        return to - from;
    }

    int given() {
        return given;
    }

    long givenInAll() {
        return givenInAll;
    }

    /** What the rig gave since it was last forgotten. */
    byte[] givenNow() {
        return Arrays.copyOf(fromRig, given);
    }

    byte given(int place) {
        return fromRig[place];
    }

    void forgetGiven() {
        given = 0;
    }

    @Override
    public int read() {
        return from == to ? -1 : toRig[from++] & 0xFF;
    }

    @Override
    public int write(byte[] bytes, int first, int length) {
        int taken = Math.min(length, Math.min(roomLeft, roomPerWrite));
        if (roomLeft != Integer.MAX_VALUE) {
            roomLeft -= taken;
        }
        givenInAll += taken;
        if (keeps) {
            if (given + taken > fromRig.length) {
                fromRig = Arrays.copyOf(fromRig, 2 * (given + taken));
            }
            System.arraycopy(bytes, first, fromRig, given, taken);
            given += taken;
        }
        return taken;
    }
}
