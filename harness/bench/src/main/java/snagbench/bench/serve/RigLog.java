package snagbench.bench.serve;

import java.util.Locale;
import java.util.Objects;
import java.util.function.Consumer;
import snagbench.probe.VirtualRig;
import snagbench.wire.FrameReader;

/**
 * A rig's own log: what the machine did, told from its side of the line, before any fault of the line and whether or not
 * anybody listens. A line of it holds the time on the plant's clock in seconds, the bytes that the rig was sent and has
 * sent until then, and what happened. It knows what the rig puts into its frames, and no more: what a rig records only
 * when asked, it shows only then.
 *
 * <p>The rig is driven through {@link #around}; nothing of it is changed by that.
 *
 * <p>This class is not thread-safe.
 */
public final class RigLog {
    /** Longer than the frames of any rig that we know. */
    private static final int LONGEST_FRAME = 4096;

    private static final double MICROS_PER_SECOND = 1e6;

    private final Consumer<String> lines;
    private final FrameReader reader = new FrameReader(LONGEST_FRAME);
    private final RigWords words = new RigWords(this::happened);
    private long badFrames;
    private long micros;
    private long toRig;
    private long fromRig;

    /**
     * A log that begins with the names of its columns.
     *
     * @param lines takes each line, without its end, at once
     */
    public RigLog(Consumer<String> lines) {
        this.lines = lines;
        lines.accept(
                String.format(Locale.ROOT, "%12s %9s %9s  %s", "plant s", "bytes in", "bytes out", "what happened"));
    }

    /**
     * Logs a rig from now on.
     *
     * @param rig the rig
     * @return the same rig, logged
     */
    public VirtualRig around(VirtualRig rig) {
        return new Logged(rig);
    }

    /**
     * Logs what happened to the line.
     *
     * @param what a sentence's worth, such as "host has left"
     * @param atMicros time on the plant's clock
     */
    public void note(String what, long atMicros) {
        micros = atMicros;
        happened(what);
    }

    private void happened(String what) {
        lines.accept(
                String.format(Locale.ROOT, "%12.6f %9d %9d  %s", micros / MICROS_PER_SECOND, toRig, fromRig, what));
    }

    private void sent(byte[] bytes, int count) {
        fromRig += count;
        for (int i = 0; i < count; i++) {
            if (reader.accept(bytes[i])) {
                words.tell(reader.payload());
            }
        }
        if (reader.badFrames() > badFrames) {
            happened("the rig has sent " + (reader.badFrames() - badFrames) + " bad frames");
            badFrames = reader.badFrames();
        }
    }

    private final class Logged implements VirtualRig {
        private final VirtualRig rig;

        private Logged(VirtualRig rig) {
            this.rig = rig;
        }

        @Override
        public long nowMicros() {
            return rig.nowMicros();
        }

        @Override
        public void send(byte[] bytes, int from, int length) {
            Objects.checkFromIndexSize(from, length, bytes.length);
            toRig += length;
            rig.send(bytes, from, length);
        }

        @Override
        public int receive(byte[] into) {
            int count = rig.receive(into);
            if (count > 0) {
                micros = rig.nowMicros();
                sent(into, count);
            }
            return count;
        }

        @Override
        public void runUntil(long untilMicros) {
            rig.runUntil(untilMicros);
        }
    }
}
