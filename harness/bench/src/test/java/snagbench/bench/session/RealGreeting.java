package snagbench.bench.session;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.Objects;
import snagbench.probe.VirtualRig;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.Hello;
import snagbench.wire.Reply;

/** A rig that greets as a real one; nothing else of it is changed. */
public final class RealGreeting implements VirtualRig {
    private static final int FRAME = 4096;

    private final VirtualRig rig;
    private final FrameReader reader = new FrameReader(FRAME);
    private final FrameWriter writer = new FrameWriter(FRAME);
    private final byte[] chunk = new byte[FRAME];
    private byte[] ready = new byte[0];

    /** Around a rig that nobody else runs. */
    public RealGreeting(VirtualRig rig) {
        this.rig = rig;
    }

    @Override
    public long nowMicros() {
        return rig.nowMicros();
    }

    @Override
    public void send(byte[] bytes, int from, int length) {
        rig.send(bytes, from, length);
    }

    @Override
    public int receive(byte[] into) {
        int bytes = rig.receive(chunk);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(ready);
        for (int i = 0; i < bytes; i++) {
            if (reader.accept(chunk[i])) {
                write(Objects.requireNonNull(Reply.read(reader.payload()), "a good frame that cannot be read"));
                out.write(writer.frame(), 0, writer.length());
            }
        }
        byte[] all = out.toByteArray();
        int given = Math.min(all.length, into.length);
        System.arraycopy(all, 0, into, 0, given);
        ready = Arrays.copyOfRange(all, given, all.length);
        return given;
    }

    private void write(Reply reply) {
        (reply instanceof Hello hello ? real(hello) : reply).write(writer.begin());
        if (!writer.end()) {
            throw new AssertionError("too long for a frame");
        }
    }

    private static Hello real(Hello from) {
        return new Hello(
                from.session,
                from.number,
                from.version,
                from.boot,
                from.cause,
                1,
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
            rig.runUntil(micros);
        }
    }
}
