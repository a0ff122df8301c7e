package snagbench.bench.serve;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.LongSupplier;

/**
 * A virtual rig in real time on a pseudo-terminal. It runs whether a host is there or not; what it sends to nobody is thrown
 * away.
 *
 * <p>Its time is the wall's, cut into rounds of {@value #ROUND_MICROS} microseconds: in each round the rig runs on to the
 * wall's time, to the microsecond, so that a late round shows in none of its own times and lateness does not add up. What
 * the host sends begins a round at once. Where this process was kept from running for more than
 * {@value #LONGEST_LATE_MICROS} microseconds the rig does not catch up but has stood still with it: a lease must not run
 * out because its renewals lay in the port.
 *
 * <p>This class is not thread-safe, but for {@link #pullCable}.
 */
public final class ServedRig implements AutoCloseable {
    /** How often the rig runs on, in microseconds of the wall. */
    public static final long ROUND_MICROS = 2000;

    /** How late the rig may be and still catch up, in microseconds of the wall. */
    public static final long LONGEST_LATE_MICROS = 250_000;

    private static final int CHUNK = 4096;
    private static final long BIT_MICROS_PER_BYTE = 10_000_000;
    private static final int MICROS_PER_MILLI = 1000;

    private final FaultyRig rig;
    private final ServedPort port;
    private final LongSupplier nanos;
    private final RigLog log;
    private final Pacing pacing;
    private final byte[] chunk = new byte[CHUNK];

    /** How long to pull the cable for, in microseconds; 0 when nobody wants that. */
    private final AtomicLong pullWanted = new AtomicLong();

    private Optional<Disconnection> disconnection;

    /**
     * A cable that is pulled once.
     *
     * @param afterMicros when: counted from the first time that a host has the port open, on the plant's clock
     * @param forMicros how long it is out; {@link Long#MAX_VALUE} for ever
     */
    public record Disconnection(long afterMicros, long forMicros) {
        /** Refuses times that cannot be. */
        public Disconnection {
            if (afterMicros < 0 || forMicros <= 0) {
                throw new IllegalArgumentException("cable pulled after " + afterMicros + " us for " + forMicros
                        + " us, wanted at least 0 and above 0");
            }
        }
    }

    private ServedRig(
            FaultyRig rig, ServedPort port, LongSupplier nanos, RigLog log, Optional<Disconnection> disconnection) {
        this.rig = rig;
        this.port = port;
        this.nanos = nanos;
        this.log = log;
        this.disconnection = disconnection;
        pacing = new Pacing(ROUND_MICROS, LONGEST_LATE_MICROS, rig.nowMicros(), nanos.getAsLong());
    }

    /**
     * Opens a port for a rig, which begins to run with {@link #run}.
     *
     * @param rig the rig on its line, which nobody else runs; where the line has a speed, a host must set that too
     * @param link where a symbolic link to the port is kept while it is there; empty for none
     * @param disconnection when to pull the cable; empty for never
     * @param nanos the wall's clock, in nanoseconds since any moment
     * @param log told what happens at the port
     * @param opened told the path for a host: before this returns, and whenever the port is there again
     * @return the rig with its port
     * @throws IOException if there is no port, or no link; the message says why
     */
    public static ServedRig open(
            FaultyRig rig,
            Optional<Path> link,
            Optional<Disconnection> disconnection,
            LongSupplier nanos,
            RigLog log,
            Consumer<Path> opened)
            throws IOException {
        ServedPort port = new ServedPort(
                rig.baud(), link.map(PortLink::new), opened, what -> log.note("line: " + what, rig.nowMicros()));
        port.plug();
        return new ServedRig(rig, port, nanos, log, disconnection);
    }

    /**
     * Runs the rig until told to stop, or interrupted.
     *
     * @param stopped true once it is to stop; asked in every round
     * @throws IOException if the port fails, or the rig in its own code; the message says what
     */
    public void run(BooleanSupplier stopped) throws IOException {
        while (!stopped.getAsBoolean() && !Thread.currentThread().isInterrupted()) {
            runOn();
            followCable();
            int room = room();
            hear(port.take(room));
            port.flush();
            port.await(room > 0, pacing.nanosToNextRound(nanos.getAsLong()));
        }
    }

    /** Lets the rig run on to the wall's time. */
    private void runOn() throws IOException {
        long wall = nanos.getAsLong();
        long stood = pacing.standStill(rig.nowMicros(), wall);
        if (stood > 0) {
            log.note(
                    "line: this process was kept from running; the rig has stood still for " + stood / MICROS_PER_MILLI
                            + " ms",
                    rig.nowMicros());
        }
        long target = pacing.target(wall);
        int count = 1;
        while (count > 0 || rig.nowMicros() < target) {
            count = step(target);
            port.give(chunk, count);
        }
    }

    private int step(long target) throws IOException {
        try {
            rig.runUntil(target);
            return rig.receive(chunk);
        } catch (RuntimeException | StackOverflowError e) {
            throw failed(e);
        }
    }

    private void hear(byte[] bytes) throws IOException {
        try {
            rig.send(bytes, 0, bytes.length);
        } catch (RuntimeException | StackOverflowError e) {
            throw failed(e);
        }
        if (port.hasHost() && disconnection.isPresent()) {
            rig.pullCable(
                    rig.nowMicros() + disconnection.get().afterMicros(),
                    disconnection.get().forMicros());
            disconnection = Optional.empty();
        }
    }

    private static IOException failed(Throwable cause) {
        StackTraceElement[] trace = cause.getStackTrace();
        String where = trace.length == 0 ? "" : " at " + trace[0];
        return new IOException("the virtual rig failed in its own code: " + cause + where, cause);
    }

    /**
     * How many bytes to take from the host: no more than the line carries in two rounds, so that a host that sends much
     * has to wait, as at any serial port.
     */
    private int room() {
        if (rig.baud() == 0) {
            return CHUNK;
        }
        long carried = 2 * ROUND_MICROS * rig.baud() / BIT_MICROS_PER_BYTE + 1;
        return (int) Math.max(0, Math.min(CHUNK, carried - rig.toRig().backlog(rig.nowMicros())));
    }

    private void followCable() throws IOException {
        long pullFor = pullWanted.getAndSet(0);
        if (pullFor > 0) {
            rig.pullCable(rig.nowMicros(), pullFor);
        }
        if (rig.isPlugged() && !port.isThere()) {
            port.plug();
        } else if (!rig.isPlugged() && port.isThere()) {
            port.unplug();
        }
    }

    /**
     * Pulls the cable in the next round; any thread may call this.
     *
     * @param forMicros how long it is out, on the plant's clock, above 0; {@link Long#MAX_VALUE} for ever
     */
    public void pullCable(long forMicros) {
        if (forMicros <= 0) {
            throw new IllegalArgumentException("cable pulled for " + forMicros + " us, wanted above 0");
        }
        pullWanted.set(forMicros);
    }

    /**
     * Closes the port and takes the link away.
     *
     * @throws IOException if the link cannot be taken away
     */
    @Override
    public void close() throws IOException {
        port.unplug();
    }
}
