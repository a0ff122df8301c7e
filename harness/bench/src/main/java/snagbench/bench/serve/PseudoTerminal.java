package snagbench.bench.serve;

import com.sun.jna.LastErrorException;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.locks.Lock;
import java.util.concurrent.locks.ReadWriteLock;
import java.util.concurrent.locks.ReentrantReadWriteLock;

/**
 * A pseudo-terminal seen from the device: its port is opened by a host like a serial port. It carries every byte as it is
 * (raw mode from before the first byte), and as fast as the system can: a device that has a line rate paces itself. Linux
 * only.
 *
 * <p>What is written while no host is there would lie in wait for the next one: do not write then, and call
 * {@link #dropUnread} when a host has left.
 *
 * <p>This class is thread-safe; {@link #close} waits for the others' calls.
 */
public final class PseudoTerminal implements AutoCloseable {
    /** Larger than {@code struct termios} of any C library on Linux. */
    private static final int ATTRIBUTES_ROOM = 256;

    /** {@code struct termios2}: flags 4 x 4, line 1, characters 19, speeds 2 x 4. */
    private static final int ATTRIBUTES2_BYTES = 44;

    private static final int CONTROL_FLAGS_AT = 8;
    private static final int IN_SPEED_AT = 36;
    private static final int OUT_SPEED_AT = 40;
    private static final int CBAUD = 0x100F;
    private static final int CIBAUD = CBAUD << 16;
    private static final int BOTHER = 0x1000;
    private static final int POLL_BYTES = 8;
    private static final int WANTED_AT = 4;
    private static final int SEEN_AT = 6;
    private static final int NAME_ROOM = 128;
    private static final long NANOS_PER_SECOND = 1_000_000_000;

    private final int master;
    private final Path port;
    private final ReadWriteLock use = new ReentrantReadWriteLock();
    private boolean closed;

    /**
     * What there is to do.
     *
     * @param host somebody has the port open
     * @param bytes bytes can be read; they may be the last of a host that has left
     * @param room bytes can be written; false where that was not asked
     */
    public record Ready(boolean host, boolean bytes, boolean room) {}

    private PseudoTerminal(int master, Path port) {
        this.master = master;
        this.port = port;
    }

    /**
     * Makes a pseudo-terminal.
     *
     * @param baud speed that its port has until a host sets another, in bits a second, above 0; such as 38400
     * @return the terminal, with no host
     * @throws IOException if the system gives none; the message says why
     */
    public static PseudoTerminal open(int baud) throws IOException {
        if (baud <= 0) {
            throw new IllegalArgumentException("baud of " + baud + ", wanted above 0");
        }
        requireLinux();
        try {
            int master = LinuxCalls.posix_openpt(
                    LinuxCalls.O_RDWR | LinuxCalls.O_NOCTTY | LinuxCalls.O_NONBLOCK | LinuxCalls.O_CLOEXEC);
            try {
                return prepared(master, baud);
            } catch (IOException | LastErrorException e) {
                LinuxCalls.close(master);
                throw e;
            }
        } catch (LastErrorException e) {
            throw new IOException("the system gives no pseudo-terminal: " + e.getMessage(), e);
        } catch (LinkageError e) {
            throw new IOException(
                    "no pseudo-terminal, since the library that calls the system (JNA) cannot be loaded: "
                            + e.getMessage() + "; it unpacks itself into the folder that -Djna.tmpdir=FOLDER names",
                    e);
        }
    }

    private static void requireLinux() throws IOException {
        String system = System.getProperty("os.name", "this system");
        if (!system.toLowerCase(Locale.ROOT).equals("linux")) {
            throw new IOException("a virtual rig can be served on Linux only, and this is " + system
                    + "; in the same process (\"virtual:\" in the rig's file) it runs everywhere");
        }
    }

    private static PseudoTerminal prepared(int master, int baud) throws IOException {
        if (Native.POINTER_SIZE != Long.BYTES) {
            throw new IOException("pseudo-terminals are served on 64-bit systems only");
        }
        LinuxCalls.grantpt(master);
        LinuxCalls.unlockpt(master);
        byte[] name = new byte[NAME_ROOM];
        int error = LinuxCalls.ptsname_r(master, name, new NativeLong(name.length));
        if (error != 0) {
            throw new IOException("the pseudo-terminal tells no name: error " + error);
        }
        Path port = Path.of(Native.toString(name, StandardCharsets.UTF_8.name()));
        // Before the first byte: what comes in "cooked" mode is echoed back and changed.
        byte[] attributes = new byte[ATTRIBUTES_ROOM];
        LinuxCalls.tcgetattr(master, attributes);
        LinuxCalls.cfmakeraw(attributes);
        LinuxCalls.tcsetattr(master, LinuxCalls.TCSANOW, attributes);
        PseudoTerminal made = new PseudoTerminal(master, port);
        made.setBaud(baud);
        // Until the port was opened once, "no host" cannot be told from a host.
        made.openAndClosePort();
        return made;
    }

    private void setBaud(int baud) {
        byte[] attributes = attributes2();
        ByteBuffer view = view(attributes);
        int flags = (view.getInt(CONTROL_FLAGS_AT) & ~(CBAUD | CIBAUD)) | BOTHER;
        view.putInt(CONTROL_FLAGS_AT, flags);
        view.putInt(IN_SPEED_AT, baud);
        view.putInt(OUT_SPEED_AT, baud);
        LinuxCalls.ioctl(master, new NativeLong(LinuxCalls.TCSETS2), attributes);
    }

    /** Through the master come the attributes of the port. */
    private byte[] attributes2() {
        byte[] attributes = new byte[ATTRIBUTES2_BYTES];
        LinuxCalls.ioctl(master, new NativeLong(LinuxCalls.TCGETS2), attributes);
        return attributes;
    }

    private static ByteBuffer view(byte[] bytes) {
        return ByteBuffer.wrap(bytes).order(ByteOrder.nativeOrder());
    }

    /** Drops what lies there for a host. Not the controlling terminal of this process: that would end with the port. */
    private void openAndClosePort() {
        byte[] path = (port + "\0").getBytes(StandardCharsets.UTF_8);
        int slave = LinuxCalls.open(
                path, LinuxCalls.O_RDWR | LinuxCalls.O_NOCTTY | LinuxCalls.O_NONBLOCK | LinuxCalls.O_CLOEXEC);
        try {
            LinuxCalls.tcflush(slave, LinuxCalls.TCIFLUSH);
        } finally {
            LinuxCalls.close(slave);
        }
    }

    /**
     * What a host opens.
     *
     * @return such as /dev/pts/7
     */
    public Path port() {
        return port;
    }

    /**
     * Whether a host has the port open now.
     *
     * @return false if nobody has
     * @throws IOException if the terminal is closed
     */
    public boolean hasHost() throws IOException {
        return await(false, 0).host();
    }

    /**
     * Waits until there are bytes to read (or room to write, where asked), or until a time has passed. While there is no
     * host it comes back at once.
     *
     * @param forRoom wait for room too
     * @param nanos longest wait in nanoseconds, 0 to look only
     * @return what there is to do
     * @throws IOException if the terminal is closed
     */
    public Ready await(boolean forRoom, long nanos) throws IOException {
        Lock lock = begin();
        try {
            short wanted = (short) (LinuxCalls.POLLIN | (forRoom ? LinuxCalls.POLLOUT : 0));
            int seen = poll(wanted, Math.max(nanos, 0));
            if ((seen & (LinuxCalls.POLLNVAL | LinuxCalls.POLLERR)) != 0) {
                throw new IOException("the pseudo-terminal " + port + " has gone: poll tells " + seen);
            }
            return new Ready(
                    (seen & LinuxCalls.POLLHUP) == 0,
                    (seen & LinuxCalls.POLLIN) != 0,
                    (seen & LinuxCalls.POLLOUT) != 0);
        } finally {
            lock.unlock();
        }
    }

    /** {@code struct pollfd}: file, wanted, seen; {@code struct timespec}: seconds, nanoseconds. */
    private int poll(short wanted, long nanos) throws IOException {
        byte[] file = new byte[POLL_BYTES];
        view(file).putInt(0, master).putShort(WANTED_AT, wanted);
        byte[] time = new byte[2 * Long.BYTES];
        view(time).putLong(0, nanos / NANOS_PER_SECOND).putLong(Long.BYTES, nanos % NANOS_PER_SECOND);
        try {
            LinuxCalls.ppoll(file, new NativeLong(1), time, null);
        } catch (LastErrorException e) {
            if (e.getErrorCode() != LinuxCalls.EINTR) {
                throw failed("waited for", e);
            }
            // A signal came before anything was seen.
            return poll(wanted, 0);
        }
        return view(file).getShort(SEEN_AT);
    }

    /**
     * Takes what a host has written; does not wait.
     *
     * @param into takes it, from the first byte on
     * @return how many bytes, 0 if there are none, or no host
     * @throws IOException if the terminal is closed or fails
     */
    public int read(byte[] into) throws IOException {
        Lock lock = begin();
        try {
            return LinuxCalls.read(master, into, new NativeLong(into.length)).intValue();
        } catch (LastErrorException e) {
            return nothing(e, "read");
        } finally {
            lock.unlock();
        }
    }

    /**
     * Gives bytes to the host; does not wait. Some 10 to 20 KB fit while the host reads nothing.
     *
     * @param bytes hold them
     * @param from first byte
     * @param length how many
     * @return how many were taken, 0 if there is no room
     * @throws IOException if the terminal is closed or fails
     */
    public int write(byte[] bytes, int from, int length) throws IOException {
        Objects.checkFromIndexSize(from, length, bytes.length);
        if (length == 0) {
            return 0;
        }
        byte[] part = from == 0 ? bytes : Arrays.copyOfRange(bytes, from, from + length);
        Lock lock = begin();
        try {
            return LinuxCalls.write(master, part, new NativeLong(length)).intValue();
        } catch (LastErrorException e) {
            return nothing(e, "written");
        } finally {
            lock.unlock();
        }
    }

    /**
     * The speed that the port has now: what the host has set, or the one before.
     *
     * @return bits a second
     * @throws IOException if the terminal is closed or fails
     */
    public int baud() throws IOException {
        Lock lock = begin();
        try {
            return view(attributes2()).getInt(OUT_SPEED_AT);
        } catch (LastErrorException e) {
            throw failed("asked for its speed", e);
        } finally {
            lock.unlock();
        }
    }

    /**
     * Drops what was written and not read, so that the next host does not find it; nothing, where the next host is there
     * already and lets nobody else in. Bytes that a host wrote stay.
     *
     * @throws IOException if the terminal is closed or fails
     */
    public void dropUnread() throws IOException {
        Lock lock = begin();
        try {
            openAndClosePort();
        } catch (LastErrorException e) {
            // The next host is there already and has it to itself.
            if (e.getErrorCode() != LinuxCalls.EBUSY) {
                throw failed("emptied", e);
            }
        } finally {
            lock.unlock();
        }
    }

    /** Closes the port: a host's next read ends, and the path goes. Bytes that a host has not read yet may be lost. */
    @Override
    public void close() {
        Lock lock = use.writeLock();
        lock.lock();
        try {
            if (!closed) {
                closed = true;
                LinuxCalls.close(master);
            }
        } finally {
            lock.unlock();
        }
    }

    private Lock begin() throws IOException {
        Lock lock = use.readLock();
        lock.lock();
        if (closed) {
            lock.unlock();
            throw new IOException("the pseudo-terminal " + port + " is closed");
        }
        return lock;
    }

    /** No bytes, no room, no host, or a signal: nothing was moved. */
    private int nothing(LastErrorException e, String done) throws IOException {
        return switch (e.getErrorCode()) {
            case LinuxCalls.EAGAIN, LinuxCalls.EIO, LinuxCalls.EINTR -> 0;
            default -> throw failed(done, e);
        };
    }

    private IOException failed(String done, LastErrorException e) {
        return new IOException("the pseudo-terminal " + port + " cannot be " + done + ": " + e.getMessage(), e);
    }
}
