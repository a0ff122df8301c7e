package snagbench.bench.run;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntUnaryOperator;
import java.util.stream.IntStream;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.SessionSettings;
import snagbench.bench.session.Shuttle;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.Record;
import snagbench.wire.Reply;

/**
 * Records of the example machine under a fault script, all channels in every tick, again and again with ticks and times
 * that go on.
 *
 * @param file holds them
 * @param bytes its length
 * @param records in it; their ticks are 1, 2, 3 and so on
 */
record RecordedBytes(Path file, long bytes, int records) {
    static final int LONGEST_FRAME = 4096;

    private static final long RUN_MICROS = 3_000_000;
    private static final int TICK_MICROS = 5_100;

    static RecordedBytes write(Path file, long atLeast) throws IOException, SessionException {
        List<Record> run = run();
        FrameWriter writer = new FrameWriter(LONGEST_FRAME);
        long bytes = 0;
        int records = 0;
        int parts = 0;
        boolean more = false;
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
            while (bytes < atLeast || more) {
                Record one = run.get(parts++ % run.size());
                records += more ? 0 : 1;
                more = hasMore(one);
                later(one, records).write(writer.begin());
                if (!writer.end()) {
                    throw new IllegalStateException("a record longer than a frame");
                }
                out.write(writer.frame(), 0, writer.length());
                bytes += writer.length();
            }
        }
        return new RecordedBytes(file, bytes, records);
    }

    /** A machine of many channels needs several frames for the record of one tick. */
    private static boolean hasMore(Record part) {
        return (part.flags & Record.MORE) != 0;
    }

    /** From the first part of a record to the last of another. */
    private static List<Record> whole(List<Record> parts) {
        int from = 0;
        while (parts.get(from).first != 0) {
            from++;
        }
        int to = parts.size();
        while (hasMore(parts.get(to - 1))) {
            to--;
        }
        return parts.subList(from, to);
    }

    private static Record later(Record one, int tick) {
        return new Record.Builder()
                .tick(tick, tick * TICK_MICROS)
                .state(one.active, one.flags, one.newestEvent, one.dropped)
                .values(one.first, all(one, one::told), all(one, one::real), one.forced, one.stale, one.absent)
                .build();
    }

    private static int[] all(Record one, IntUnaryOperator value) {
        return IntStream.range(0, one.count()).map(value).toArray();
    }

    private static List<Record> run() throws SessionException {
        Listening line = new Listening(Shuttle.link("standard"));
        RigSession session = RigSession.open(line, SessionSettings.usual(1, 500, () -> false), Optional.empty());
        session.loadGuards(Shuttle.file().guards());
        session.makeReady(Shuttle.file().ready().orElseThrow(), false);
        line.records.clear();
        session.arm(Shuttle.script("reach-blocked-midway"), 1);
        long until = session.nowMicros() + RUN_MICROS;
        while (session.nowMicros() < until) {
            session.work(until);
        }
        return whole(line.records);
    }

    private static final class Listening implements PassingLink {
        private final Link line;
        private final FrameReader frames = new FrameReader(LONGEST_FRAME);
        private final List<Record> records = new ArrayList<>();

        Listening(Link line) {
            this.line = line;
        }

        @Override
        public int receive(byte[] into, long untilMicros) throws LinkException {
            int bytes = line.receive(into, untilMicros);
            for (int i = 0; i < bytes; i++) {
                if (frames.accept(into[i]) && Reply.read(frames.payload()) instanceof Record record) {
                    records.add(record);
                }
            }
            return bytes;
        }

        @Override
        public Link line() {
            return line;
        }
    }
}
