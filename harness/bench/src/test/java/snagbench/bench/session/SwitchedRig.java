package snagbench.bench.session;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.Objects;
import java.util.function.Supplier;
import snagbench.probe.VirtualRig;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.Hello;
import snagbench.wire.Reply;
import snagbench.wire.Request;
import snagbench.wire.ResetCause;

/**
 * A rig that can be switched off and on. It is another rig each time, that knows nothing of before; since each of these counts
 * its boots from 1, they are renamed on the way, as a controller names them whose count outlives its power.
 */
public final class SwitchedRig implements VirtualRig {
    private static final int FRAME = 4096;
    private static final int BOOTS_BETWEEN = 1000;

    private final Supplier<VirtualRig> rigs;
    private final FrameWriter writer = new FrameWriter(FRAME);
    private final byte[] chunk = new byte[FRAME];
    private FrameReader fromBench = new FrameReader(FRAME);
    private FrameReader fromRig = new FrameReader(FRAME);
    private byte[] ready = new byte[0];
    private VirtualRig rig;
    private ResetCause cause = ResetCause.POWER_ON;
    private int boots;
    private long since;

    /** A rig that is on. */
    public SwitchedRig(Supplier<VirtualRig> rigs) {
        this.rigs = rigs;
        this.rig = rigs.get();
    }

    /** Off and on again: nothing of before is left, neither an override nor a latch. */
    public void restart(ResetCause why) {
        since = nowMicros();
        rig = rigs.get();
        boots += BOOTS_BETWEEN;
        cause = why;
        ready = new byte[0];
        fromBench = new FrameReader(FRAME);
        fromRig = new FrameReader(FRAME);
    }

    @Override
    public long nowMicros() {
        return since + rig.nowMicros();
    }

    @Override
    public void send(byte[] bytes, int from, int length) {
        for (int i = from; i < from + length; i++) {
            if (fromBench.accept(bytes[i])) {
                Request told = Objects.requireNonNull(Request.read(fromBench.payload()), "no request");
                int boot = told.boot == 0 ? 0 : told.boot - boots;
                if (!new Request(told.session, boot, told.number, told.body).write(writer)) {
                    throw new AssertionError("too long for a frame");
                }
                rig.send(writer.frame(), 0, writer.length());
            }
        }
    }

    @Override
    public int receive(byte[] into) {
        int bytes = rig.receive(chunk);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(ready);
        for (int i = 0; i < bytes; i++) {
            if (fromRig.accept(chunk[i])) {
                Reply reply = Objects.requireNonNull(Reply.read(fromRig.payload()), "no reply");
                (reply instanceof Hello hello && boots > 0 ? renamed(hello) : reply).write(writer.begin());
                if (!writer.end()) {
                    throw new AssertionError("too long for a frame");
                }
                out.write(writer.frame(), 0, writer.length());
            }
        }
        byte[] all = out.toByteArray();
        int given = Math.min(all.length, into.length);
        System.arraycopy(all, 0, into, 0, given);
        ready = Arrays.copyOfRange(all, given, all.length);
        return given;
    }

    private Hello renamed(Hello from) {
        return new Hello(
                from.session,
                from.number,
                from.version,
                from.boot + boots,
                cause.code(),
                from.real,
                from.digest,
                from.items,
                from.channels,
                from.tickMicros,
                from.slots,
                from.terms,
                from.points,
                from.guards,
                from.ring,
                from.frame,
                from.kinds,
                from.history,
                from.build);
    }

    @Override
    public void runUntil(long micros) {
        if (ready.length == 0) {
            rig.runUntil(micros - since);
        }
    }
}
