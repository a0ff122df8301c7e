package snagbench.bench.serve;

import java.io.IOException;

/** Bytes that the port has not taken yet. A host that reads nothing loses what does not fit, as on any serial port. */
final class OutgoingBytes {
    static final int ROOM = 1 << 16;

    private final byte[] bytes = new byte[ROOM];
    private int from;
    private int to;

    /** Adds bytes; gives how many did not fit. */
    int add(byte[] added, int count) {
        if (ROOM - to < count) {
            System.arraycopy(bytes, from, bytes, 0, to - from);
            to -= from;
            from = 0;
        }
        int fits = Math.min(count, ROOM - to);
        System.arraycopy(added, 0, bytes, to, fits);
        to += fits;
        return count - fits;
    }

    boolean isEmpty() {
        return from == to;
    }

    void clear() {
        from = 0;
        to = 0;
    }

    /** Gives the terminal what it takes now. */
    void giveTo(PseudoTerminal terminal) throws IOException {
        int given = 1;
        while (from != to && given > 0) {
            given = terminal.write(bytes, from, to - from);
            from += given;
        }
        if (from == to) {
            clear();
        }
    }
}
