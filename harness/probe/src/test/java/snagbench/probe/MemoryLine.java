package snagbench.probe;

import java.util.ArrayDeque;

/** A line in memory: what the bench sent, and what the rig gave, which may be less a tick than the rig would like. */
final class MemoryLine implements ProbeLine {
    private final ArrayDeque<Byte> toRig = new ArrayDeque<>();
    private byte[] fromRig = new byte[1 << 16];
    private int given;
    private int roomLeft = Integer.MAX_VALUE;

    /** Most bytes that the line takes from now on until told otherwise. */
    void takeAtMost(int bytes) {
        roomLeft = bytes;
    }

    void send(byte[] bytes, int length) {
        for (int i = 0; i < length; i++) {
            toRig.add(bytes[i]);
        }
    }

    /** The rig starts anew: what was on the way is lost. */
    void clear() {
        toRig.clear();
        given = 0;
    }

    int waitingForRig() {
        return toRig.size();
    }

    int given() {
        return given;
    }

    byte given(int place) {
        return fromRig[place];
    }

    void forgetGiven() {
        given = 0;
    }

    @Override
    public int read() {
        Byte next = toRig.poll();
        return next == null ? -1 : next & 0xFF;
    }

    @Override
    public int write(byte[] bytes, int from, int length) {
        int taken = Math.min(length, roomLeft);
        if (roomLeft != Integer.MAX_VALUE) {
            roomLeft -= taken;
        }
        if (given + taken > fromRig.length) {
            fromRig = java.util.Arrays.copyOf(fromRig, 2 * fromRig.length);
        }
        System.arraycopy(bytes, from, fromRig, given, taken);
        given += taken;
        return taken;
    }
}
