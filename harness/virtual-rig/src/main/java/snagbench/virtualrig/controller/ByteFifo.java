package snagbench.virtualrig.controller;

/** One way of the line: bytes in order, each there from a time on. It takes up to its room and no more. */
final class ByteFifo {
    /** A power of two, as every length that follows by doubling. */
    private static final int START = 1024;

    private static final long NANOS_PER_MICRO = 1000;

    private final long nanosPerByte;
    private final int room;
    private byte[] bytes;
    private long[] dueNanos;
    private int head;
    private int count;
    private long freeFromNanos;

    ByteFifo(long nanosPerByte, int room) {
        this.nanosPerByte = nanosPerByte;
        this.room = room;
        bytes = new byte[START];
        dueNanos = new long[nanosPerByte == 0 ? 0 : bytes.length];
    }

    /** Gives bytes to the line at a time; returns how many it took. */
    int put(byte[] from, int offset, int length, long nowMicros) {
        int taken = Math.min(length, room - count);
        while (count + taken > bytes.length) {
            grow();
        }
        for (int i = 0; i < taken; i++) {
            int place = (head + count) & (bytes.length - 1);
            bytes[place] = from[offset + i];
            if (nanosPerByte != 0) {
                freeFromNanos = Math.max(freeFromNanos, nowMicros * NANOS_PER_MICRO) + nanosPerByte;
                dueNanos[place] = freeFromNanos;
            }
            count++;
        }
        return taken;
    }

    /** Takes a byte that is there by now; -1 when there is none. */
    int take(long nowMicros) {
        if (nextMicros() > nowMicros) {
            return -1;
        }
        int taken = bytes[head] & 0xFF;
        head = (head + 1) & (bytes.length - 1);
        count--;
        return taken;
    }

    /** When the next byte is there, in whole microseconds; past or 0 for at once, the greatest long where there is none. */
    long nextMicros() {
        if (count == 0) {
            return Long.MAX_VALUE;
        }
        return nanosPerByte == 0 ? 0 : (dueNanos[head] + NANOS_PER_MICRO - 1) / NANOS_PER_MICRO;
    }

    /** Loses what is there by now: nobody listened. */
    void dropUntil(long nowMicros) {
        while (take(nowMicros) >= 0) {
            // Gone with the taking.
        }
    }

    private void grow() {
        byte[] more = new byte[bytes.length * 2];
        long[] moreDue = new long[nanosPerByte == 0 ? 0 : more.length];
        for (int i = 0; i < count; i++) {
            int place = (head + i) & (bytes.length - 1);
            more[i] = bytes[place];
            if (nanosPerByte != 0) {
                moreDue[i] = dueNanos[place];
            }
        }
        bytes = more;
        dueNanos = moreDue;
        head = 0;
    }
}
