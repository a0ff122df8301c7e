package snagbench.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import org.junit.jupiter.api.Test;

/** What the probe does in each tick must leave no garbage: a collection would fall into somebody's control loop. */
class AllocationTests {
    private static final int WARM_UP = 20_000;
    private static final int TICKS = 10_000;

    private final FrameWriter writer = new FrameWriter(256);
    private final FrameReader reader = new FrameReader(256);
    private final RequestHeader header = new RequestHeader();
    private final ProgramDigest digest = new ProgramDigest();
    private final byte[] request = requestFrame();
    private long sink;

    @Test
    void aTickOfTheProbeAllocatesNothing() {
        for (int i = 0; i < WARM_UP; i++) {
            tick(i);
        }
        ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        assertTrue(threads.isThreadAllocatedMemorySupported());
        threads.setThreadAllocatedMemoryEnabled(true);
        long thread = Thread.currentThread().getId();
        // Asking may itself allocate at first, so ask once before.
        threads.getThreadAllocatedBytes(thread);
        long before = threads.getThreadAllocatedBytes(thread);
        long asking = threads.getThreadAllocatedBytes(thread) - before;
        before = threads.getThreadAllocatedBytes(thread);
        for (int i = 0; i < TICKS; i++) {
            tick(i);
        }
        long allocated = threads.getThreadAllocatedBytes(thread) - before - asking;
        assertEquals(0, allocated, "bytes in " + TICKS + " ticks");
        assertTrue(sink != 0);
    }

    @Test
    void theMeasurementSeesASingleSmallObject() {
        ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        threads.setThreadAllocatedMemoryEnabled(true);
        long thread = Thread.currentThread().getId();
        threads.getThreadAllocatedBytes(thread);
        long before = threads.getThreadAllocatedBytes(thread);
        Object kept = new Event(1, 2, 3, 4, 5, 6);
        long after = threads.getThreadAllocatedBytes(thread);
        assertTrue(after - before >= 32, kept + " seen as " + (after - before) + " bytes");
    }

    private void tick(int tick) {
        boolean closed = false;
        for (byte one : request) {
            closed = reader.accept(one);
        }
        if (closed && header.read(reader.payload())) {
            int from = reader.payload().position();
            for (int i = 0; i < header.fields; i++) {
                sink += reader.payload().integer();
            }
            digest.add(header.type, reader.bytes(), from, reader.payload().position());
            sink += digest.value();
        }
        Answer.write(writer.begin(), header.session, header.number, 0, tick, tick, tick * 5_000);
        sink += end();
        Event.write(writer.begin(), tick, tick, tick * 5_000, 4, 2, 1);
        sink += end();
        CborWriter out = writer.begin();
        Record.writeHead(out, 1, tick, tick * 5_000, 1, 3, 12, 0, 0, 12, 0b11, 0, 0);
        for (int i = 0; i < 14; i++) {
            out.integer(i * tick - 500);
        }
        sink += end();
        // A frame that is damaged, one that does not fit, and one that cannot be understood.
        reader.accept((byte) 9);
        reader.accept((byte) 0);
        CborWriter tooLong = writer.begin();
        for (int i = 0; i < 60; i++) {
            tooLong.integer(Long.MIN_VALUE);
        }
        sink += writer.end() ? 1 : 0;
        reader.payload().reset(request, 0, request.length);
        sink += header.read(reader.payload()) ? 1 : 0;
    }

    private int end() {
        if (!writer.end()) {
            throw new AssertionError("does not fit");
        }
        boolean closed = false;
        for (int i = 0; i < writer.length(); i++) {
            closed = reader.accept(writer.frame()[i]);
        }
        return closed ? writer.length() : 0;
    }

    private static byte[] requestFrame() {
        return Message.of(new Request(0x5EED, 0x1234567, 12, new Entry(0, 1, 3, -40, 0, -1, -1, 900_000, 0)))
                .frame(256);
    }
}
