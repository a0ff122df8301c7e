package snagbench.bench.run;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.SerialLink;
import snagbench.bench.link.SerialSettings;
import snagbench.bench.script.RigDescription;
import snagbench.bench.session.Shuttle;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.Answer;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.Record;
import snagbench.wire.Reply;

/**
 * What the serial line carries, beside a plain C loop on the same machine in the same minute. All goes through real
 * pseudo-terminals and the serial library; the far end is another process. Figures are ratios, but for those of a core.
 */
public final class LineBenchmark {
    /** Of a line of 3,000,000 baud, ten bits a byte. */
    private static final int LINE_RATE = 300_000;

    private static final int BAUD = 3_000_000;
    private static final int ROUNDS = 7;
    private static final long FLOOD_BYTES = 16_000_000;
    private static final int PACED_SECONDS = 5;
    private static final int PACED_ROUNDS = 5;

    /** What the far end keeps for a harness that is late, see there. */
    private static final int DRIVER_KIB = 56;

    private static final int ROUND_TRIPS = 20_000;
    private static final int WARM_UP_TRIPS = 20_000;
    private static final int ASKED_BYTES = 32;
    private static final int CHUNK = 4096;
    private static final long SILENCE_MICROS = 500_000;
    private static final double NANOS_PER_SECOND = 1e9;

    private final Path program;
    private final Path folder;
    private final RigDescription description = Shuttle.description();

    private LineBenchmark(Path program, Path folder) {
        this.program = program;
        this.folder = folder;
    }

    /**
     * Measures and prints a table.
     *
     * @param words the file with the far end's source
     */
    @SuppressWarnings("SystemOut") // A program of its own: what it prints is its result.
    public static void main(String[] words) throws Exception {
        Path folder = Files.createTempDirectory("snagbench-line-");
        try {
            FarEnd.requireLinux();
            Path program = FarEnd.compile(Path.of(words[0]), folder);
            load();
            new LineBenchmark(program, folder).measure();
        } catch (IOException e) {
            System.err.println("line benchmark: " + e.getMessage());
            System.exit(4);
        } finally {
            delete(folder);
        }
    }

    /** Figures of a machine that does other things as well say less. */
    private static void load() {
        var system = ManagementFactory.getOperatingSystemMXBean();
        print(
                "%d cores, %.1f processes wanted them in the last minute, Java %s",
                system.getAvailableProcessors(), system.getSystemLoadAverage(), Runtime.version());
        print("");
    }

    private static void delete(Path folder) throws IOException {
        try (var files = Files.list(folder)) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
        }
        Files.delete(folder);
    }

    private void measure() throws Exception {
        RecordedBytes flood = RecordedBytes.write(folder.resolve("flood"), FLOOD_BYTES);
        RecordedBytes paced = RecordedBytes.write(folder.resolve("paced"), (long) PACED_SECONDS * LINE_RATE);
        double[] inC = new double[ROUNDS];
        double[] bytes = new double[ROUNDS];
        double[] decoded = new double[ROUNDS];
        // Turn about, so that what else the machine does strikes all alike.
        for (int round = -1; round < ROUNDS; round++) {
            double first = readInC(flood);
            double second = flood(flood, false);
            double third = flood(flood, true);
            if (round >= 0) {
                inC[round] = first;
                bytes[round] = second;
                decoded[round] = third;
            }
        }
        print("| what | measured |");
        print("| --- | ---: |");
        print(
                "| bytes of records (%.1f a record) through the link, beside a C loop's read | %.2f |",
                (double) flood.bytes() / flood.records(), median(bytes) / median(inC));
        print("| the same, decoded and recorded, beside a C loop's read | %.2f |", median(decoded) / median(inC));
        print("| the same, in line rates of 3 Mbaud | %.0f |", median(decoded) / LINE_RATE);
        List<Paced> at3Mbaud = pacedRounds(paced);
        print(
                "| at 3 Mbaud, %d runs of %d s: records decoded and recorded, of those sent | %s |",
                PACED_ROUNDS, PACED_SECONDS, range(at3Mbaud, one -> (double) one.rows / paced.records(), "%.4f"));
        print("| bytes that found no room in the port | %s |", range(at3Mbaud, one -> one.lost, "%.0f"));
        print("| bytes that came, in line rates | %s |", range(at3Mbaud, one -> one.rate / LINE_RATE, "%.3f"));
        print(
                "| bytes that the far end itself sent, in line rates (it may be kept waiting, too) | %s |",
                range(at3Mbaud, one -> one.sentRate / LINE_RATE, "%.3f"));
        print(
                "| the most that waited for the harness outside the pseudo-terminal, of %d KiB | %s |",
                DRIVER_KIB, range(at3Mbaud, one -> one.mostWaiting / 1024.0, "%.1f"));
        print("| share of a core | %s %% |", range(at3Mbaud, one -> 100 * one.processorShare, "%.1f"));
        long[] askedInC;
        try (FarEnd echo = FarEnd.start(program, "echo")) {
            askedInC = FarEnd.figures(program, "ask", echo.says(), Integer.toString(ROUND_TRIPS));
        }
        long[] asked = ask();
        print(
                "| round trip of a request of %d bytes, median, beside a C loop's echo | %.2f |",
                ASKED_BYTES, (double) asked[0] / askedInC[0]);
        print("| the same, 99th percentile | %.2f |", (double) asked[1] / askedInC[1]);
    }

    // What it prints is its result; the check for formats would want a dependency for this one private method.
    @SuppressWarnings({"SystemOut", "AnnotateFormatMethod"})
    private static void print(String format, Object... figures) {
        System.out.println(String.format(Locale.ROOT, format, figures));
    }

    private static double median(double[] figures) {
        double[] sorted = figures.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    private SerialLink connect(String port) throws LinkException {
        SerialLink link = SerialLink.open(port, SerialSettings.at(BAUD), System::nanoTime);
        link.send(new byte[] {1}, 1);
        return link;
    }

    /** Bytes a second. */
    private double readInC(RecordedBytes bytes) throws IOException {
        try (FarEnd device = FarEnd.start(program, "flood", bytes.file().toString())) {
            long nanos = FarEnd.figures(program, "read", device.says(), Long.toString(bytes.bytes()))[0];
            return bytes.bytes() * NANOS_PER_SECOND / nanos;
        }
    }

    /** Bytes a second. */
    private double flood(RecordedBytes bytes, boolean decodes) throws IOException, LinkException {
        try (FarEnd device = FarEnd.start(program, "flood", bytes.file().toString());
                SerialLink link = connect(device.says())) {
            Host host = new Host(decodes);
            host.listen(link, bytes.bytes());
            if (host.taken != bytes.bytes() || (decodes && host.rows() != bytes.records())) {
                throw new IOException(host.taken + " of " + bytes.bytes() + " bytes and " + host.rows() + " of "
                        + bytes.records() + " records came through a line that loses nothing");
            }
            return bytes.bytes() * NANOS_PER_SECOND / (host.lastNanos - host.firstNanos);
        }
    }

    private record Paced(int rows, long lost, long mostWaiting, double rate, double sentRate, double processorShare) {}

    private List<Paced> pacedRounds(RecordedBytes bytes) throws IOException, LinkException {
        List<Paced> rounds = new ArrayList<>();
        for (int round = 0; round < PACED_ROUNDS; round++) {
            rounds.add(paced(bytes));
        }
        return rounds;
    }

    /** Least to greatest, or one figure where they are shown alike. */
    @SuppressWarnings("AnnotateFormatMethod") // As below.
    private static String range(List<Paced> rounds, ToDoubleFunction<Paced> figure, String format) {
        DoubleSummaryStatistics all = rounds.stream().mapToDouble(figure).summaryStatistics();
        String least = String.format(Locale.ROOT, format, all.getMin());
        String most = String.format(Locale.ROOT, format, all.getMax());
        return least.equals(most) ? least : least + " to " + most;
    }

    private Paced paced(RecordedBytes bytes) throws IOException, LinkException {
        var system = (com.sun.management.OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
        try (FarEnd device = FarEnd.start(program, "paced", bytes.file().toString(), Integer.toString(LINE_RATE));
                SerialLink link = connect(device.says())) {
            Host host = new Host(true);
            long processor = system.getProcessCpuTime();
            host.listen(link, bytes.bytes());
            long used = system.getProcessCpuTime() - processor;
            double nanos = host.lastNanos - host.firstNanos;
            String[] told = device.says().split(" ");
            long lost = Long.parseLong(told[0]);
            double sentRate = bytes.bytes() * NANOS_PER_SECOND / Long.parseLong(told[2]);
            return new Paced(
                    host.rows(),
                    lost,
                    Long.parseLong(told[1]),
                    host.taken * NANOS_PER_SECOND / nanos,
                    sentRate,
                    used / nanos);
        }
    }

    /** The harness's way from the link to the trace. */
    private final class Host {
        private final boolean decodes;
        private final byte[] chunk = new byte[CHUNK];
        private final FrameReader frames = new FrameReader(RecordedBytes.LONGEST_FRAME);
        private final TraceRecorder recorder;
        private long taken;
        private long firstNanos;
        private long lastNanos;

        Host(boolean decodes) {
            this.decodes = decodes;
            int[] all = IntStream.range(0, description.channels().size()).toArray();
            recorder = new TraceRecorder(description, 1, all, 0, 0, 0);
        }

        void listen(SerialLink link, long wanted) throws LinkException {
            int count;
            while (taken < wanted && (count = link.receive(chunk, link.nowMicros() + SILENCE_MICROS)) > 0) {
                if (firstNanos == 0) {
                    firstNanos = System.nanoTime();
                }
                taken += count;
                if (decodes) {
                    decode(count);
                }
                lastNanos = System.nanoTime();
            }
        }

        private void decode(int count) {
            for (int i = 0; i < count; i++) {
                if (frames.accept(chunk[i]) && Reply.read(frames.payload()) instanceof Record record) {
                    recorder.record(record);
                }
            }
        }

        int rows() {
            return recorder.trace().rows();
        }
    }

    /** Median and 99th percentile of a frame that is made, sent, echoed, found and decoded, in nanoseconds. */
    private long[] ask() throws IOException, LinkException {
        Answer asked = new Answer(0x7EEDBEEF, 70_000, 0, 33, 0x1000_0000, 70_000);
        FrameWriter writer = new FrameWriter(RecordedBytes.LONGEST_FRAME);
        FrameReader frames = new FrameReader(RecordedBytes.LONGEST_FRAME);
        byte[] chunk = new byte[CHUNK];
        long[] took = new long[ROUND_TRIPS];
        try (FarEnd device = FarEnd.start(program, "echo");
                SerialLink link = connect(device.says())) {
            for (int i = -WARM_UP_TRIPS; i < ROUND_TRIPS; i++) {
                long began = System.nanoTime();
                asked.write(writer.begin());
                if (!writer.end() || writer.length() != ASKED_BYTES) {
                    throw new IllegalStateException("a frame of " + writer.length() + " bytes");
                }
                link.send(writer.frame(), writer.length());
                boolean answered = false;
                while (!answered) {
                    int count = link.receive(chunk, link.nowMicros() + SILENCE_MICROS);
                    if (count == 0) {
                        throw new IOException("no echo");
                    }
                    for (int at = 0; at < count; at++) {
                        answered |= frames.accept(chunk[at]) && Reply.read(frames.payload()) instanceof Answer;
                    }
                }
                if (i >= 0) {
                    took[i] = System.nanoTime() - began;
                }
            }
        }
        Arrays.sort(took);
        return new long[] {took[ROUND_TRIPS / 2], took[ROUND_TRIPS / 100 * 99]};
    }
}
