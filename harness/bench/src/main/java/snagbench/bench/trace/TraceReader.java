package snagbench.bench.trace;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.DescriptionItems;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.wire.CborReader;
import snagbench.wire.Event;
import snagbench.wire.FrameReader;
import snagbench.wire.Item;
import snagbench.wire.Record;
import snagbench.wire.Reply;
import snagbench.wire.ResetCause;

/** Reads a trace file, piece by piece. */
final class TraceReader {
    private static final int RIG_FIGURES = 9;

    private final InputStream in;
    private final FrameReader frames = new FrameReader(Frames.LONGEST);
    private final Integers piece = new Integers();
    private long bytes;
    private long unknownPieces;
    private boolean whole;
    private int type;
    private int left;

    TraceReader(InputStream in) {
        this.in = in;
    }

    StoredTrace read() throws IOException {
        TraceHeader header = header();
        RigDescription rig = rig();
        if (!next() || type != Frames.WATCH) {
            throw damaged("the list of recorded channels is missing");
        }
        TraceRecorder first = watch(rig, null);
        parts(first);
        return new StoredTrace(header, first.trace(), whole, frames.badFrames() + unknownPieces);
    }

    /** Goes to the next good piece and reads its type. */
    private boolean next() throws IOException {
        for (int next = in.read(); next >= 0; next = in.read()) {
            bytes++;
            if (frames.accept((byte) next)) {
                CborReader payload = frames.payload();
                left = payload.array() - 1;
                type = payload.int32();
                return true;
            }
        }
        return false;
    }

    private TraceHeader header() throws IOException {
        if (!next()) {
            if (bytes == 0) {
                throw new IOException("not a trace file: it is empty");
            }
            throw new IOException("not a trace file, or one that was cut off in its first piece");
        }
        CborReader payload = frames.payload();
        if (type != Frames.HEAD || !payload.text().equals(Frames.MAGIC)) {
            throw new IOException("not a trace file: it does not begin as one");
        }
        int version = payload.int32();
        if (!payload.failed() && version > Frames.VERSION) {
            throw new IOException("a trace file of version " + version + "; this harness reads up to version "
                    + Frames.VERSION + ", a newer one is needed");
        }
        TraceHeader.Origin origin = TraceHeader.Origin.of(payload.int32());
        String script = payload.text();
        int seed = payload.int32();
        int program = payload.int32();
        String build = payload.text();
        if (payload.failed()) {
            throw damaged("its first piece is not what it should be");
        }
        return new TraceHeader(origin, script, seed, program, build);
    }

    private RigDescription rig() throws IOException {
        if (!next() || type != Frames.RIG) {
            throw damaged("the rig's limits are missing");
        }
        CborReader payload = frames.payload();
        int digest = payload.int32();
        int count = payload.int32();
        int[] figures = new int[RIG_FIGURES];
        for (int i = 0; i < Math.min(RIG_FIGURES, left - 2); i++) {
            figures[i] = payload.int32();
        }
        ProbeCapacity limits = new ProbeCapacity(
                figures[0] != 0,
                figures[1],
                figures[2],
                figures[3],
                figures[4],
                figures[5],
                figures[6],
                figures[7],
                figures[8]);
        List<Item> items = new ArrayList<>();
        while (!payload.failed() && items.size() < count) {
            Item item = nextItem();
            if (item == null || item.index != items.size()) {
                throw damaged(
                        "only " + items.size() + " of the " + count + " items of the rig's description are there");
            }
            items.add(item);
        }
        try {
            return DescriptionItems.description(digest, limits, items);
        } catch (IllegalArgumentException e) {
            throw new IOException("damaged trace file: " + e.getMessage(), e);
        }
    }

    private @Nullable Item nextItem() throws IOException {
        for (int next = in.read(); next >= 0; next = in.read()) {
            bytes++;
            if (frames.accept((byte) next)) {
                return Reply.read(frames.payload()) instanceof Item item ? item : null;
            }
        }
        return null;
    }

    /** A recorder for the part that a list of recorded channels begins. */
    private TraceRecorder watch(RigDescription rig, @Nullable TraceRecorder before) throws IOException {
        CborReader payload = frames.payload();
        int periodTicks = payload.int32();
        piece.readFrom(payload, left - 1);
        if (piece.failed() || periodTicks < 1) {
            throw damaged("the list of recorded channels cannot be read");
        }
        int[] channels = new int[piece.size()];
        for (int i = 0; i < channels.length; i++) {
            channels[i] = piece.next();
            if (channels[i] < 0 || channels[i] >= rig.channels().size()) {
                throw damaged("it records channel " + channels[i] + ", and the rig has "
                        + rig.channels().size());
            }
        }
        return before == null ? new TraceRecorder(rig, periodTicks, channels, 0, 0, 0) : before.afterRestart(channels);
    }

    private void parts(TraceRecorder first) throws IOException {
        TraceRecorder recorder = first;
        boolean restarted = false;
        while (next()) {
            CborReader payload = frames.payload();
            switch (type) {
                case Frames.ROWS -> {
                    piece.readFrom(payload, left);
                    unknownPieces += rows(recorder) ? 0 : 1;
                }
                case Frames.RESTART -> {
                    ResetCause cause = ResetCause.of(payload.int32());
                    long noLater = payload.integer();
                    recorder.restarted(
                            cause == null ? ResetCause.UNKNOWN : cause,
                            noLater < 0 || payload.failed() ? OptionalLong.empty() : OptionalLong.of(noLater));
                    restarted = true;
                }
                case Frames.WATCH -> {
                    if (restarted && recorder == first) {
                        recorder = watch(first.rig(), first);
                    } else {
                        unknownPieces++;
                    }
                }
                case Frames.END -> whole = true;
                default -> unknownPieces++;
            }
        }
    }

    /** Rows and events of a piece, in the order in which they were written; false if it holds something else. */
    private boolean rows(TraceRecorder recorder) {
        RowLayout layout = new RowLayout(recorder.width(), recorder.periodTicks());
        RowChanges changes = new RowChanges(layout.length(), recorder.periodTicks());
        while (piece.hasNext()) {
            int count = piece.next();
            if (count == Frames.EVENT) {
                event(recorder, changes.row());
            } else if (count >= 0 && changes.read(count, piece)) {
                for (Record record : layout.records(changes.row())) {
                    recorder.record(record);
                }
            } else {
                return false;
            }
        }
        return !piece.failed();
    }

    private void event(TraceRecorder recorder, int[] row) {
        int number = piece.next();
        int tick = row[RowLayout.TICK] + piece.next();
        int micros = row[RowLayout.MICROS] + piece.next();
        int kind = piece.next();
        int a = piece.next();
        int b = piece.next();
        if (!piece.failed()) {
            recorder.event(new Event(number, tick, micros, kind, a, b));
        }
    }

    private static IOException damaged(String how) {
        return new IOException("damaged trace file: " + how);
    }
}
