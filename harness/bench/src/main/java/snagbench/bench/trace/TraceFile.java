package snagbench.bench.trace;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.DescriptionItems;
import snagbench.bench.script.RigDescription;
import snagbench.wire.Event;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.Hello;
import snagbench.wire.Item;
import snagbench.wire.Record;
import snagbench.wire.Reply;
import snagbench.wire.Request;
import snagbench.wire.ResetCause;
import snagbench.wire.Watch;
import snagbench.wire.Wire;

/**
 * A trace as a file: the wire's own frames, one behind the other, with ticks, times and event numbers counted from arming.
 *
 * <p>First a greeting and as many items as it tells, which are the rig's description; then a {@link Watch}, which is the
 * list of recorded channels; then records and events, each event before the record of its tick; and where the controller
 * restarted, a greeting with the cause as the last frame. All sessions, boots and request numbers are 0. Times are modulo
 * 2^32 as on the line. So a file can be appended to while a rig runs, a file that was cut off in mid-write is a shorter
 * trace, and a frame that was damaged is a gap, as on the line.
 *
 * <p>The same trace gives the same bytes.
 */
public final class TraceFile {
    /** Files may have longer frames than a line: a record of 32 channels over several ticks fits. */
    private static final int LONGEST_FRAME = 4096;

    /** Stands for an event of a kind that this version does not know: its number was seen, so that it is no gap. */
    private static final int UNKNOWN_KIND = -1;

    private final FrameWriter frames = new FrameWriter(LONGEST_FRAME);
    private final OutputStream out;
    private final Trace trace;
    private int nextNumber = 1;

    private TraceFile(Trace trace, OutputStream out) {
        this.trace = trace;
        this.out = out;
    }

    /**
     * Writes a trace.
     *
     * @param trace what was seen
     * @param to takes the bytes; it is flushed, not closed
     * @throws IOException if it does not take them
     */
    public static void write(Trace trace, OutputStream to) throws IOException {
        OutputStream buffered = new BufferedOutputStream(to);
        new TraceFile(trace, buffered).write();
        buffered.flush();
    }

    private void write() throws IOException {
        List<Item> items = DescriptionItems.of(trace.rig());
        put(DescriptionItems.greeting(trace.rig(), items.size()));
        for (Item item : items) {
            put(item);
        }
        if (!new Request(0, 0, 0, new Watch(trace.periodTicks(), 0, trace.watchedChannels())).write(frames)) {
            throw new IOException(
                    trace.watchedChannels().length + " recorded channels are more than a trace file can hold");
        }
        out.write(frames.frame(), 0, frames.length());
        int written = 0;
        List<Happening> events = trace.events();
        for (int row = 0; row < trace.rows(); row++) {
            while (written < events.size() && events.get(written).tick() <= trace.tick(row)) {
                event(events.get(written++));
            }
            record(row);
        }
        while (written < events.size()) {
            event(events.get(written++));
        }
        if (trace.restart().isPresent()) {
            put(restart(trace.restart().get().cause()));
        }
    }

    private void put(Reply message) throws IOException {
        message.write(frames.begin());
        if (!frames.end()) {
            throw new IOException("a message of the trace is longer than " + LONGEST_FRAME + " bytes");
        }
        out.write(frames.frame(), 0, frames.length());
    }

    private static Hello restart(ResetCause cause) {
        return new Hello(0, 0, Wire.VERSION, 1, cause.code(), 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, "");
    }

    private void event(Happening one) throws IOException {
        while (nextNumber < one.number()) {
            if (trace.sawEvent(nextNumber)) {
                put(new Event(nextNumber, one.tick(), (int) one.micros(), UNKNOWN_KIND, 0, 0));
            }
            nextNumber++;
        }
        put(new Event(one.number(), one.tick(), (int) one.micros(), one.kind().code(), one.a(), one.b()));
        nextNumber = one.number() + 1;
    }

    private void record(int row) throws IOException {
        int[] channels = trace.watchedChannels();
        List<int[]> parts = new ArrayList<>();
        for (int place = 0; place < channels.length; place++) {
            if (!trace.has(row, channels[place])) {
                continue;
            }
            int[] last = parts.isEmpty() ? new int[] {-1, -1} : parts.get(parts.size() - 1);
            if (last[1] == place && place - last[0] < Wire.MASK_BITS) {
                last[1] = place + 1;
            } else {
                parts.add(new int[] {place, place + 1});
            }
        }
        if (parts.isEmpty()) {
            parts.add(new int[] {0, 0});
        }
        for (int i = 0; i < parts.size(); i++) {
            put(part(row, channels, parts.get(i)[0], parts.get(i)[1], i + 1 < parts.size()));
        }
    }

    private Record part(int row, int[] channels, int first, int behind, boolean more) {
        int count = behind - first;
        int[][] values = new int[6][count];
        int forced = 0;
        int stale = 0;
        int absent = 0;
        for (int i = 0; i < count; i++) {
            int channel = channels[first + i];
            values[0][i] = trace.told(row, channel);
            values[1][i] = trace.real(row, channel);
            values[2][i] = trace.leastTold(row, channel);
            values[3][i] = trace.leastReal(row, channel);
            values[4][i] = trace.greatestTold(row, channel);
            values[5][i] = trace.greatestReal(row, channel);
            forced |= trace.wasForced(row, channel) ? 1 << i : 0;
            stale |= trace.stale(row, channel) ? 1 << i : 0;
            absent |= trace.absent(row, channel) ? 1 << i : 0;
        }
        Record.Builder part = new Record.Builder()
                .tick(trace.tick(row), (int) trace.micros(row))
                .state(
                        trace.active(row),
                        trace.flags(row) | (more ? Record.MORE : 0),
                        trace.newestEvent(row),
                        trace.dropped(row))
                .values(first, values[0], values[1], forced, stale, absent);
        if (trace.periodTicks() > 1) {
            part.period(
                    trace.periodTicks(),
                    trace.shortestLoopMicros(row),
                    trace.longestLoopMicros(row),
                    new int[][] {values[2], values[3]},
                    new int[][] {values[4], values[5]});
        }
        return part.build();
    }

    /**
     * Reads a trace.
     *
     * @param from gives the bytes; it is read to its end, not closed
     * @return what was seen
     * @throws IOException if it cannot be read, or is no trace file
     */
    public static Trace read(InputStream from) throws IOException {
        InputStream in = new BufferedInputStream(from);
        FrameReader frames = new FrameReader(LONGEST_FRAME);
        if (!(next(in, frames) && Reply.read(frames.payload()) instanceof Hello hello)) {
            throw new IOException("not a trace file: it does not begin with a greeting");
        }
        TraceRecorder recorder = recorder(in, frames, hello);
        while (next(in, frames)) {
            take(Reply.read(frames.payload()), recorder);
        }
        return recorder.trace();
    }

    private static TraceRecorder recorder(InputStream in, FrameReader frames, Hello hello) throws IOException {
        List<Item> items = new ArrayList<>();
        while (items.size() < hello.items) {
            if (!(next(in, frames) && Reply.read(frames.payload()) instanceof Item item)) {
                throw new IOException("damaged trace file: only " + items.size() + " of the " + hello.items
                        + " items of the rig's description are there");
            }
            items.add(item);
        }
        RigDescription rig;
        try {
            rig = DescriptionItems.description(hello, items);
        } catch (IllegalArgumentException e) {
            throw new IOException("damaged trace file: " + e.getMessage(), e);
        }
        Request request = next(in, frames) ? Request.read(frames.payload()) : null;
        if (request == null || !(request.body instanceof Watch watch)) {
            throw new IOException("damaged trace file: the list of recorded channels is missing");
        }
        int[] channels = watch.channels();
        for (int channel : channels) {
            if (channel < 0 || channel >= rig.channels().size()) {
                throw new IOException("damaged trace file: it records channel " + channel + ", and the rig has "
                        + rig.channels().size());
            }
        }
        return new TraceRecorder(rig, watch.periodTicks, channels, 0, 0, 0);
    }

    private static boolean next(InputStream in, FrameReader frames) throws IOException {
        for (int next = in.read(); next >= 0; next = in.read()) {
            if (frames.accept((byte) next)) {
                return true;
            }
        }
        return false;
    }

    private static void take(@Nullable Reply message, TraceRecorder recorder) {
        if (message instanceof Record record) {
            recorder.record(record);
        } else if (message instanceof Event event) {
            recorder.event(event);
        } else if (message instanceof Hello hello) {
            ResetCause cause = ResetCause.of(hello.cause);
            recorder.restarted(cause == null ? ResetCause.UNKNOWN : cause);
        }
    }
}
