package snagbench.bench.link;

import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;
import java.util.concurrent.locks.LockSupport;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;

/**
 * A rig on a serial port. Its clock is the wall's.
 *
 * <p>One daemon thread reads whatever comes into a queue, so that a busy session loses nothing, and watches that no write
 * hangs. What had come before the line was lost is still received before {@link #receive} tells of the loss.
 *
 * <p>Closing gives written bytes their chance, but can promise nothing: a driver may drop what it still holds. Whoever needs
 * to know that the last words were heard waits for an answer before closing.
 *
 * <p>Like any link it belongs to the thread of the session, save that {@link #close} may come from any thread.
 */
public final class SerialLink implements Link {
    /** At 3 Mbaud more than 3 s: a session that looks away that long has other troubles. */
    private static final int QUEUE_BYTES = 1 << 20;

    /**
     * A pseudo-terminal does not tell what it holds, and hands bytes over a little after the write. Measured, on a machine
     * with nothing else to do and on a busy one: closing at once loses the last words in 7 to 8 of 10 tries, closing after
     * 5 ms in up to 3 of 100, after 20 ms in up to 2 of 1000; so there is a margin to that.
     */
    private static final long SETTLING_NANOS = TimeUnit.MILLISECONDS.toNanos(60);

    private static final long PAUSE_NANOS = TimeUnit.MILLISECONDS.toNanos(1);
    private static final long FULL_NANOS = TimeUnit.MILLISECONDS.toNanos(SerialDevice.READ_MILLIS);
    private static final long LONGEST_WAIT_NANOS = TimeUnit.HOURS.toNanos(1);
    private static final long READER_END_MILLIS = 20L * SerialDevice.READ_MILLIS;
    private static final long NANOS_PER_MICRO = 1000;

    private final String shown;
    private final Path file;
    private final SerialSettings settings;
    private final SerialDevice device;
    private final LongSupplier nanos;
    private final long origin;
    private final ByteQueue queue = new ByteQueue(QUEUE_BYTES);
    private final Thread reader;

    private final AtomicReference<@Nullable String> trouble = new AtomicReference<>();
    private final AtomicBoolean closed = new AtomicBoolean();

    /** Held during a write: a port that is closed under one could see its number reused, and the bytes go elsewhere. */
    private final ReentrantLock writing = new ReentrantLock();

    private volatile boolean inWrite;
    private volatile long writeNanos;
    private volatile boolean stopReading;

    private SerialLink(String shown, Path file, SerialSettings settings, SerialDevice device, LongSupplier nanos) {
        this.shown = shown;
        this.file = file;
        this.settings = settings;
        this.device = device;
        this.nanos = nanos;
        this.origin = nanos.getAsLong();
        this.writeNanos = origin - SETTLING_NANOS;
        this.reader = new Thread(this::readAlong, "serial reader " + shown);
        reader.setDaemon(true);
    }

    /**
     * Opens a serial port. What lay there from before is thrown away.
     *
     * @param port path of the device, or of a link to it, such as /dev/ttyUSB0
     * @param settings how to use it
     * @param nanos the clock, in nanoseconds since some moment; it must run with the wall's
     * @return a link with nothing sent or received
     * @throws LinkException if the port cannot be opened; the message says why and what to do
     */
    public static SerialLink open(String port, SerialSettings settings, LongSupplier nanos) throws LinkException {
        Path file = PortPath.device(port, Ports::paths);
        SerialLink link = new SerialLink(port, file, settings, SerialDevice.open(port, file, settings.baud()), nanos);
        link.reader.start();
        return link;
    }

    @Override
    public long nowMicros() {
        return (nanos.getAsLong() - origin) / NANOS_PER_MICRO;
    }

    @Override
    public void send(byte[] bytes, int length) throws LinkException {
        Objects.checkFromIndexSize(0, length, bytes.length);
        requireOpen();
        failIfLost();
        boolean whole;
        writing.lock();
        try {
            writeNanos = nanos.getAsLong();
            inWrite = true;
            whole = device.write(bytes, length);
        } finally {
            inWrite = false;
            writeNanos = nanos.getAsLong();
            writing.unlock();
        }
        if (!whole) {
            requireOpen();
            lose(gone());
        }
        failIfLost();
    }

    @Override
    public int receive(byte[] into, long untilMicros) throws LinkException {
        requireOpen();
        int bytes;
        try {
            bytes = queue.take(into, nanosUntil(untilMicros));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new LinkException("waiting on " + name() + " was interrupted", e);
        }
        if (bytes < 0) {
            requireOpen();
            failIfLost();
        }
        return Math.max(bytes, 0);
    }

    private long nanosUntil(long untilMicros) {
        long micros = untilMicros - nowMicros();
        return micros >= LONGEST_WAIT_NANOS / NANOS_PER_MICRO ? LONGEST_WAIT_NANOS : micros * NANOS_PER_MICRO;
    }

    private void requireOpen() throws LinkException {
        if (closed.get()) {
            throw new LinkException("the link to " + name() + " is closed");
        }
    }

    private void failIfLost() throws LinkException {
        String lost = trouble.get();
        if (lost != null) {
            throw new LinkException(lost);
        }
    }

    private void lose(String why) {
        trouble.compareAndSet(null, why);
    }

    private String gone() {
        return name() + " is gone: the cable was pulled, the controller lost its power or left the bus,"
                + " or whoever served a virtual rig on it has ended";
    }

    @Override
    public String name() {
        return "serial port " + shown + " (" + settings.baud() + " baud)";
    }

    /** The lock on a port binds only those who ask for it. */
    @Override
    public List<String> others() {
        return PortHolders.of(file);
    }

    private void readAlong() {
        byte[] chunk = new byte[SerialDevice.READ_BYTES];
        try {
            while (!stopReading) {
                int bytes = device.read(chunk);
                if (bytes < 0) {
                    lineLost();
                    return;
                }
                while (bytes > 0 && !stopReading && !queue.put(chunk, bytes, FULL_NANOS)) {
                    failHangingWrite();
                }
                failHangingWrite();
            }
        } catch (InterruptedException e) {
            lose("the reading of " + name() + " was interrupted");
        } catch (RuntimeException | Error e) {
            lose("the reading of " + name() + " failed: " + e);
        } finally {
            queue.end();
        }
    }

    /** Lets the port go, so that a device that comes back gets its old name. */
    private void lineLost() throws InterruptedException {
        lose(gone());
        if (writing.tryLock(settings.longestWrite().toNanos(), TimeUnit.NANOSECONDS)) {
            try {
                device.close();
            } finally {
                writing.unlock();
            }
        }
    }

    /** The system's own time limit on writes does nothing on Linux; closing the port frees the writer. */
    private void failHangingWrite() {
        if (inWrite && nanos.getAsLong() - writeNanos >= settings.longestWrite().toNanos()) {
            lose(name() + " has taken no bytes for "
                    + settings.longestWrite().toMillis()
                    + " ms: the controller does not read its line, or does not run; the port is closed");
            device.close();
        }
    }

    @Override
    public void close() {
        if (closed.getAndSet(true)) {
            return;
        }
        // Whoever is interrupted closes all the same, and as carefully.
        boolean interrupted = Thread.interrupted();
        awaitLastWords();
        stopReading = true;
        interrupted |= !awaitReader();
        device.close();
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private void awaitLastWords() {
        long pauses = settings.lastWords().toNanos() / PAUSE_NANOS;
        while (trouble.get() == null && pauses > 0 && (device.awaitingWrite() > 0 || isJustWritten())) {
            LockSupport.parkNanos(PAUSE_NANOS);
            pauses--;
        }
    }

    private boolean isJustWritten() {
        return nanos.getAsLong() - writeNanos < SETTLING_NANOS;
    }

    /** A port must not be closed under a read, which comes back within a tenth of a second. False if interrupted. */
    private boolean awaitReader() {
        try {
            reader.join(READER_END_MILLIS);
            return true;
        } catch (InterruptedException e) {
            return false;
        }
    }
}
