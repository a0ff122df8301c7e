package snagbench.bench.trace;

import java.io.IOException;
import java.io.OutputStream;
import java.util.BitSet;
import java.util.List;
import snagbench.bench.script.DescriptionItems;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.wire.CborWriter;
import snagbench.wire.FrameWriter;
import snagbench.wire.Item;

/**
 * Writes a trace while it grows: what was appended can be read, whatever happens then. Not threadsafe.
 *
 * <p>The same trace, appended in one go, gives the same bytes.
 */
public final class TraceWriter {
    private final OutputStream out;
    private final FrameWriter frames = new FrameWriter(Frames.LONGEST);
    private final Integers piece = new Integers();
    private final BitSet eventsWritten = new BitSet();
    private int rowsWritten;
    private int rowsInPiece;
    private boolean watchWritten;
    private boolean inSecondPart;

    /** Before anything of it is written: a piece starts from a row of zeros. */
    private RowLayout layout = new RowLayout(0, 1);

    private RowChanges changes = new RowChanges(layout.length(), 1);

    private TraceWriter(OutputStream out) {
        this.out = out;
    }

    /**
     * Begins a file.
     *
     * @param out takes the bytes; it is flushed after each call, not closed
     * @param header what the trace is of
     * @param rig what the rig tells of itself
     * @return ready to append
     * @throws IOException if it does not take them
     */
    public static TraceWriter begin(OutputStream out, TraceHeader header, RigDescription rig) throws IOException {
        TraceWriter writer = new TraceWriter(out);
        writer.head(header);
        writer.rig(rig);
        out.flush();
        return writer;
    }

    private void head(TraceHeader header) throws IOException {
        CborWriter to = frames.begin();
        to.array(8);
        to.integer(Frames.HEAD);
        to.text(Frames.MAGIC);
        to.integer(Frames.VERSION);
        to.integer(header.origin().code());
        to.text(header.script());
        to.integer(header.seed());
        to.integer(header.program());
        to.text(header.build());
        put("the script's name");
    }

    private void rig(RigDescription rig) throws IOException {
        List<Item> items = DescriptionItems.of(rig);
        ProbeCapacity limits = rig.limits();
        CborWriter to = frames.begin();
        to.array(12);
        to.integer(Frames.RIG);
        to.integer(rig.digest());
        to.integer(items.size());
        to.integer(limits.real() ? 1 : 0);
        to.integer(limits.tickMicros());
        to.integer(limits.slots());
        to.integer(limits.terms());
        to.integer(limits.points());
        to.integer(limits.guards());
        to.integer(limits.frame());
        to.integer(limits.kinds());
        to.integer(limits.history());
        put("the rig's limits");
        for (Item item : items) {
            item.write(frames.begin());
            put("an item of the rig's description");
        }
    }

    /** How a part of a trace is recorded; from here on its rows and events follow. */
    private void watch(Trace part) throws IOException {
        int[] channels = part.watchedChannels();
        CborWriter to = frames.begin();
        to.array(2 + channels.length);
        to.integer(Frames.WATCH);
        to.integer(part.periodTicks());
        for (int channel : channels) {
            to.integer(channel);
        }
        put("the list of recorded channels");
        layout = new RowLayout(channels.length, part.periodTicks());
        eventsWritten.clear();
        rowsWritten = 0;
        watchWritten = true;
    }

    /**
     * Appends what is new of a trace.
     *
     * @param trace all that was seen so far
     * @throws IOException if it cannot be written
     */
    public void append(Trace trace) throws IOException {
        appendParts(trace, false);
        out.flush();
    }

    /**
     * Appends what is left of a trace, and the end.
     *
     * @param trace all that was seen
     * @throws IOException if it cannot be written
     */
    public void finish(Trace trace) throws IOException {
        appendParts(trace, true);
        CborWriter to = frames.begin();
        to.array(1);
        to.integer(Frames.END);
        put("the end");
        out.flush();
    }

    private void appendParts(Trace trace, boolean last) throws IOException {
        if (!inSecondPart) {
            boolean over = last || trace.restart().isPresent();
            part(trace, over);
            if (trace.restart().isPresent()) {
                CborWriter to = frames.begin();
                to.array(3);
                to.integer(Frames.RESTART);
                to.integer(trace.restart().get().cause().code());
                to.integer(trace.restart().get().noLaterMicros().orElse(-1));
                put("a restart");
                inSecondPart = true;
                watchWritten = false;
            }
        }
        if (inSecondPart && trace.afterRestart().isPresent()) {
            part(trace.afterRestart().get(), last);
        }
    }

    private void part(Trace part, boolean last) throws IOException {
        if (!watchWritten) {
            watch(part);
        }
        beginPiece();
        for (; rowsWritten < part.rows(); rowsWritten++) {
            eventsThrough(part, part.tick(rowsWritten));
            int[] row = changes.row().clone();
            layout.fill(row, part, rowsWritten);
            changes.write(row, piece);
            rowsInPiece++;
            if (rowsInPiece == Frames.MOST_ROWS || piece.size() >= Frames.MOST_INTEGERS) {
                endPiece();
            }
        }
        if (last) {
            eventsThrough(part, Integer.MAX_VALUE);
            unknownEventsBefore(part, part.greatestEvent() + 1);
        }
        endPiece();
    }

    private void eventsThrough(Trace part, int tick) {
        for (Happening one : part.events()) {
            if (one.tick() > tick) {
                break;
            }
            if (!eventsWritten.get(one.number())) {
                unknownEventsBefore(part, one.number());
                event(one.number(), one.tick(), (int) one.micros(), one.kind().code(), one.a(), one.b());
            }
        }
    }

    /** All known ones before it are written: whatever else was seen is of a kind that is not known. */
    private void unknownEventsBefore(Trace part, int number) {
        for (int one = eventsWritten.nextClearBit(1); one < number; one = eventsWritten.nextClearBit(one + 1)) {
            if (part.sawEvent(one)) {
                int[] before = changes.row();
                event(one, before[RowLayout.TICK], before[RowLayout.MICROS], Frames.UNKNOWN_KIND, 0, 0);
            }
        }
    }

    private void event(int number, int tick, int micros, int kind, int a, int b) {
        eventsWritten.set(number);
        piece.add(Frames.EVENT);
        piece.add(number);
        piece.add(tick - changes.row()[RowLayout.TICK]);
        piece.add(micros - changes.row()[RowLayout.MICROS]);
        piece.add(kind);
        piece.add(a);
        piece.add(b);
    }

    private void beginPiece() {
        piece.clear();
        rowsInPiece = 0;
        changes = new RowChanges(layout.length(), layout.periodTicks());
    }

    private void endPiece() throws IOException {
        if (piece.size() > 0) {
            CborWriter to = frames.begin();
            to.array(1 + piece.size());
            to.integer(Frames.ROWS);
            piece.writeTo(to);
            put("a piece with rows");
        }
        beginPiece();
    }

    private void put(String what) throws IOException {
        if (!frames.end()) {
            throw new IOException(what + " is longer than the " + Frames.LONGEST + " bytes that a trace file can hold");
        }
        out.write(frames.frame(), 0, frames.length());
    }
}
