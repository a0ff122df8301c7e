package snagbench.bench.serve;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * The port of a served rig: there or not, with a host or without, at the rig's speed or another. Notes what changes.
 *
 * <p>This class is not thread-safe.
 */
final class ServedPort {
    /** The speed that a port begins with where the rig has none: Linux's own for a new terminal. */
    private static final int USUAL_BAUD = 38_400;

    private final int baud;
    private final Optional<PortLink> link;
    private final Consumer<Path> opened;
    private final Consumer<String> notes;
    private final OutgoingBytes outgoing = new OutgoingBytes();

    private @Nullable PseudoTerminal terminal;
    private boolean host;
    private int hostBaud;
    private long thrownAway;

    /**
     * A port that is not there yet.
     *
     * @param baud speed of the rig's line; 0 where the host may set any
     * @param link where a link is kept
     * @param opened told the path each time that the port is there
     * @param notes told what changes
     */
    ServedPort(int baud, Optional<PortLink> link, Consumer<Path> opened, Consumer<String> notes) {
        this.baud = baud;
        this.link = link;
        this.opened = opened;
        this.notes = notes;
    }

    boolean isThere() {
        return terminal != null;
    }

    boolean hasHost() {
        return host;
    }

    void plug() throws IOException {
        PseudoTerminal fresh = PseudoTerminal.open(baud == 0 ? USUAL_BAUD : baud);
        try {
            if (link.isPresent()) {
                link.get().point(fresh.port());
            }
        } catch (IOException e) {
            fresh.close();
            throw e;
        }
        terminal = fresh;
        hostBaud = baud;
        Path path = link.map(PortLink::path).orElse(fresh.port());
        notes.accept("port " + path + " is there");
        opened.accept(path);
    }

    void unplug() throws IOException {
        PseudoTerminal old = terminal;
        if (old == null) {
            return;
        }
        terminal = null;
        host = false;
        outgoing.clear();
        old.close();
        notes.accept("port " + old.port() + " has gone");
        if (link.isPresent()) {
            link.get().remove(old.port());
        }
    }

    /**
     * Looks for a host and its bytes.
     *
     * @param most how many bytes to take
     * @return them, perhaps none
     */
    byte[] take(int most) throws IOException {
        PseudoTerminal now = terminal;
        if (now == null) {
            return new byte[0];
        }
        PseudoTerminal.Ready ready = now.await(false, 0);
        // The last words of a host lie there when it has left; they count as its own.
        byte[] taken = ready.bytes() && most > 0 ? read(now, most) : new byte[0];
        if (ready.host() != host) {
            host = ready.host();
            notes.accept(host ? "host is there" : "host has left");
            if (!host) {
                outgoing.clear();
                now.dropUnread();
            }
        }
        return taken;
    }

    private byte[] read(PseudoTerminal from, int most) throws IOException {
        byte[] bytes = new byte[most];
        int count = from.read(bytes);
        if (count == 0) {
            return new byte[0];
        }
        return atSameSpeed(from) ? Arrays.copyOf(bytes, count) : SpeedMismatch.heard(bytes, count, hostBaud, baud);
    }

    /** Takes bytes for the host; without one they are thrown away. */
    void give(byte[] bytes, int count) throws IOException {
        PseudoTerminal now = terminal;
        if (now == null || !host) {
            return;
        }
        int lost;
        if (atSameSpeed(now)) {
            lost = outgoing.add(bytes, count);
        } else {
            byte[] heard = SpeedMismatch.heard(bytes, count, baud, hostBaud);
            lost = outgoing.add(heard, heard.length);
        }
        if (lost > 0 && thrownAway == 0) {
            notes.accept("host does not read; what it has no room for is thrown away");
        }
        thrownAway += lost;
    }

    private boolean atSameSpeed(PseudoTerminal of) throws IOException {
        int set = baud == 0 ? 0 : of.baud();
        if (set != hostBaud) {
            hostBaud = set;
            notes.accept("port is set to " + set + " baud" + (set == baud ? "" : "; the rig's line has " + baud));
        }
        return hostBaud == baud;
    }

    /** Gives the host what it takes now. */
    void flush() throws IOException {
        PseudoTerminal now = terminal;
        if (now == null || outgoing.isEmpty()) {
            return;
        }
        outgoing.giveTo(now);
        if (thrownAway > 0 && outgoing.isEmpty()) {
            notes.accept("host reads again; " + thrownAway + " bytes were thrown away");
            thrownAway = 0;
        }
    }

    /**
     * Waits until a time has passed, or the host has something to do before.
     *
     * @param forBytes whether bytes of the host end the wait
     * @param nanos longest wait
     */
    void await(boolean forBytes, long nanos) throws IOException {
        PseudoTerminal now = terminal;
        if (now != null && host && forBytes) {
            now.await(!outgoing.isEmpty(), nanos);
        } else {
            LockSupport.parkNanos(nanos);
        }
    }
}
