package snagbench.bench.serve;

import java.util.Objects;
import java.util.Random;

/**
 * One direction of a line: takes bytes with their times and gives them on as a slow and faulty line would. What it does
 * hangs on the bytes, their times and the seed alone, not on how they are cut into calls.
 *
 * <p>With a speed it is a serial line of ten bits a byte (8 data bits, no parity, one stop bit), and what does not fit into
 * the sender's buffer of {@value #SENDERS_ROOM} bytes is lost.
 *
 * <p>This class is not thread-safe.
 */
public final class FaultyLine {
    /** One page: the transmit buffer of a serial port in Linux ({@code UART_XMIT_SIZE}); a controller's is often less. */
    static final int SENDERS_ROOM = 4096;

    static final long TEN_BITS_NANOS = 10_000_000_000L;

    private static final long NANOS_PER_MICRO = 1000;
    private static final int LOSS = 0;
    private static final int FLIP = 1;
    private static final int DOUBLING = 2;
    private static final int JITTER = 3;
    private static final int STREAMS = 4;
    private static final int FIRST_ROOM = 1024;

    private final long nanosPerByte;
    private final LineFaults faults;
    private final Chance loss;
    private final Chance flip;
    private final Chance doubling;
    private final Random jitter;

    private byte[] bytes = new byte[FIRST_ROOM];
    private long[] dueMicros = new long[FIRST_ROOM];
    private int first;
    private int count;

    private long wireFreeNanos;
    private long burstMicros = Long.MIN_VALUE;
    private long burstJitter;
    private long lastDue;

    private long lost;
    private long flipped;
    private long doubled;
    private long overflowed;

    /**
     * A line with nothing on it.
     *
     * @param baud its speed in bits a second; 0 for one that takes no time
     * @param faults of the line
     * @param seed of the faults
     * @param direction 0 or another small number, so that two directions of one seed have faults of their own
     */
    public FaultyLine(int baud, LineFaults faults, long seed, int direction) {
        if (baud < 0) {
            throw new IllegalArgumentException("baud of " + baud + ", wanted at least 0");
        }
        this.nanosPerByte = baud == 0 ? 0 : TEN_BITS_NANOS / baud;
        this.faults = faults;
        int stream = STREAMS * direction;
        loss = new Chance(faults.loss(), seed, stream + LOSS);
        flip = new Chance(faults.flip(), seed, stream + FLIP);
        doubling = new Chance(faults.doubling(), seed, stream + DOUBLING);
        jitter = Chance.random(seed, stream + JITTER);
    }

    /**
     * Sends bytes.
     *
     * @param from hold them
     * @param offset first byte
     * @param length how many
     * @param micros when, never earlier than before
     */
    public void put(byte[] from, int offset, int length, long micros) {
        Objects.checkFromIndexSize(offset, length, from.length);
        for (int i = 0; i < length; i++) {
            send(from[offset + i], micros);
        }
    }

    private void send(byte value, long micros) {
        if (backlog(micros) >= SENDERS_ROOM) {
            overflowed++;
            return;
        }
        long travel = faults.latencyMicros() + jitter(micros);
        if (loss.strikes()) {
            lost++;
            cross(micros);
            return;
        }
        byte arriving = value;
        if (flip.strikes()) {
            flipped++;
            arriving ^= (byte) (1 << flip.below(Byte.SIZE));
        }
        arrive(arriving, cross(micros) + travel);
        if (doubling.strikes()) {
            doubled++;
            arrive(arriving, cross(micros) + travel);
        }
    }

    /** Lets one byte go over the wire; gives when it is over, in microseconds rounded up. */
    private long cross(long micros) {
        wireFreeNanos = Math.max(wireFreeNanos, micros * NANOS_PER_MICRO) + nanosPerByte;
        return dividedUp(wireFreeNanos, NANOS_PER_MICRO);
    }

    private long jitter(long micros) {
        if (faults.jitterMicros() > 0 && micros != burstMicros) {
            burstMicros = micros;
            burstJitter = (long) (jitter.nextDouble() * (faults.jitterMicros() + 1));
        }
        return burstJitter;
    }

    private void arrive(byte value, long micros) {
        if (count == bytes.length) {
            grow();
        }
        lastDue = Math.max(lastDue, micros);
        int place = (first + count) % bytes.length;
        bytes[place] = value;
        dueMicros[place] = lastDue;
        count++;
    }

    private void grow() {
        byte[] moreBytes = new byte[2 * bytes.length];
        long[] moreDue = new long[2 * bytes.length];
        int head = bytes.length - first;
        System.arraycopy(bytes, first, moreBytes, 0, head);
        System.arraycopy(bytes, 0, moreBytes, head, first);
        System.arraycopy(dueMicros, first, moreDue, 0, head);
        System.arraycopy(dueMicros, 0, moreDue, head, first);
        bytes = moreBytes;
        dueMicros = moreDue;
        first = 0;
    }

    /**
     * Takes what has arrived.
     *
     * @param into takes it, from the first byte on
     * @param micros now
     * @return how many bytes, 0 if none has
     */
    public int take(byte[] into, long micros) {
        int taken = 0;
        while (taken < into.length && count > 0 && dueMicros[first] <= micros) {
            into[taken++] = bytes[first];
            first = (first + 1) % bytes.length;
            count--;
        }
        return taken;
    }

    /**
     * When the next byte arrives.
     *
     * @return in microseconds, perhaps past; {@link Long#MAX_VALUE} if none is on the way
     */
    public long nextMicros() {
        return count == 0 ? Long.MAX_VALUE : dueMicros[first];
    }

    /**
     * Bytes that the sender has handed over and that have not gone over the wire.
     *
     * @param micros now
     * @return how many, 0 where the line takes no time
     */
    public int backlog(long micros) {
        long busy = wireFreeNanos - micros * NANOS_PER_MICRO;
        return nanosPerByte == 0 || busy <= 0 ? 0 : Math.toIntExact(dividedUp(busy, nanosPerByte));
    }

    private static long dividedUp(long figure, long by) {
        return -Math.floorDiv(-figure, by);
    }

    /** Loses all that is on the way, as a cable does that is pulled. */
    public void drop() {
        lost += count;
        count = 0;
        wireFreeNanos = 0;
        lastDue = 0;
    }

    /**
     * Bytes lost, those that {@link #drop} lost among them.
     *
     * @return a count
     */
    public long lost() {
        return lost;
    }

    /**
     * Bytes that arrive with a bit turned over.
     *
     * @return a count
     */
    public long flipped() {
        return flipped;
    }

    /**
     * Bytes that arrive twice.
     *
     * @return a count
     */
    public long doubled() {
        return doubled;
    }

    /**
     * Bytes for which the sender's buffer had no room.
     *
     * @return a count
     */
    public long overflowed() {
        return overflowed;
    }
}
