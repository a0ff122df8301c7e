package snagbench.bench.serve;

import java.util.Objects;
import snagbench.probe.VirtualRig;

/**
 * A virtual rig at the other end of a slow or faulty line. It can be driven in the same process like any other; the same
 * rig, line, seed and bytes sent give the same bytes back at the same times, however the time is cut into calls. On a line
 * with neither speed nor faults it is the rig itself.
 *
 * <p>This class is not thread-safe.
 */
public final class FaultyRig implements VirtualRig {
    private static final int CHUNK = 1024;
    private static final int TO_RIG = 0;
    private static final int TO_BENCH = 1;

    private final VirtualRig rig;
    private final int baud;
    private final FaultyLine toRig;
    private final FaultyLine toBench;
    private final byte[] chunk = new byte[CHUNK];
    private long pulledFrom = Long.MAX_VALUE;
    private long pulledUntil = Long.MAX_VALUE;

    /**
     * Puts a rig behind a line.
     *
     * @param rig the rig, which nobody else runs from now on
     * @param baud speed of the line in bits a second, ten a byte; 0 for one that takes no time
     * @param faults of the line
     * @param seed of the faults
     */
    public FaultyRig(VirtualRig rig, int baud, LineFaults faults, long seed) {
        this.rig = rig;
        this.baud = baud;
        toRig = new FaultyLine(baud, faults, seed, TO_RIG);
        toBench = new FaultyLine(baud, faults, seed, TO_BENCH);
    }

    /**
     * The speed of the line.
     *
     * @return bits a second; 0 where it takes no time
     */
    public int baud() {
        return baud;
    }

    /**
     * Pulls the cable at a time and puts it back: what is on the line then, and what is sent until it is back, is lost. A
     * later call takes the place of an earlier one.
     *
     * @param fromMicros when to pull it, on {@link #nowMicros()}, not in the past
     * @param forMicros how long it is out; {@link Long#MAX_VALUE} for ever
     */
    public void pullCable(long fromMicros, long forMicros) {
        if (fromMicros < nowMicros() || forMicros <= 0) {
            throw new IllegalArgumentException("cable to be pulled at " + fromMicros + " us for " + forMicros
                    + " us; it is " + nowMicros() + " us now, and it must be out for more than 0");
        }
        pulledFrom = fromMicros;
        pulledUntil = forMicros > Long.MAX_VALUE - fromMicros ? Long.MAX_VALUE : fromMicros + forMicros;
    }

    /**
     * Whether the cable is in.
     *
     * @return false while it is pulled
     */
    public boolean isPlugged() {
        return nowMicros() < pulledFrom || nowMicros() >= pulledUntil;
    }

    @Override
    public long nowMicros() {
        return rig.nowMicros();
    }

    @Override
    public void send(byte[] bytes, int from, int length) {
        Objects.checkFromIndexSize(from, length, bytes.length);
        if (isPlugged()) {
            toRig.put(bytes, from, length, nowMicros());
        }
    }

    @Override
    public int receive(byte[] into) {
        collect();
        return toBench.take(into, nowMicros());
    }

    @Override
    public void runUntil(long micros) {
        collect();
        while (nowMicros() < micros && toBench.nextMicros() > nowMicros()) {
            deliver();
            long next = Math.min(toRig.nextMicros(), toBench.nextMicros());
            rig.runUntil(Math.min(Math.min(micros, next), nextPull()));
            collect();
        }
    }

    /** When the cable is next pulled or put back. */
    private long nextPull() {
        return nowMicros() < pulledFrom ? pulledFrom : nowMicros() < pulledUntil ? pulledUntil : Long.MAX_VALUE;
    }

    private void deliver() {
        int bytes;
        while ((bytes = toRig.take(chunk, nowMicros())) > 0) {
            rig.send(chunk, 0, bytes);
        }
    }

    private void collect() {
        boolean plugged = isPlugged();
        if (!plugged) {
            toRig.drop();
            toBench.drop();
        }
        int bytes;
        while ((bytes = rig.receive(chunk)) > 0) {
            if (plugged) {
                toBench.put(chunk, 0, bytes, nowMicros());
            }
        }
    }

    /**
     * The line to the rig, for its counts.
     *
     * @return the line; to be looked at only
     */
    public FaultyLine toRig() {
        return toRig;
    }

    /**
     * The line from the rig, for its counts.
     *
     * @return the line; to be looked at only
     */
    public FaultyLine toBench() {
        return toBench;
    }
}
