package snagbench.bench.run;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.RigDescription;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceFile;
import snagbench.bench.trace.TraceHeader;
import snagbench.bench.trace.TraceWriter;

/**
 * Keeps a trace while it grows, so that a run that is cut short leaves what was seen: all of it where the harness ends by
 * itself, all but the last {@value #LONGEST_UNWRITTEN_MICROS} us on the rig's clock where it is killed. At the end it is
 * written anew in one go, so that its bytes do not hang on how often somebody looked.
 *
 * <p>A disk that is full must not keep a rig from its safe stop: what goes wrong is told at the end.
 */
final class TraceKeeper implements AutoCloseable {
    /** What a kill may lose. A write for each record costs a run more than its whole judgement. */
    static final long LONGEST_UNWRITTEN_MICROS = 500_000;

    private final Path file;
    private final TraceHeader header;

    private @Nullable Trace unwritten;
    private long writtenMicros = Long.MIN_VALUE;
    private boolean afterRestart;

    private @Nullable OutputStream out;
    private @Nullable TraceWriter writer;
    private @Nullable IOException failure;

    TraceKeeper(Path file, TraceHeader header) {
        this.file = file;
        this.header = header;
    }

    /** Takes what is new, and appends it where enough of it has gathered. */
    void append(Trace trace) {
        unwritten = trace;
        boolean behind = trace.afterRestart().isPresent();
        long micros = micros(trace.afterRestart().orElse(trace));
        if (behind != afterRestart || micros - LONGEST_UNWRITTEN_MICROS >= writtenMicros) {
            afterRestart = behind;
            writtenMicros = micros;
            write();
        }
    }

    private static long micros(Trace trace) {
        return trace.rows() == 0 ? 0 : trace.micros(trace.rows() - 1);
    }

    private void write() {
        Trace trace = unwritten;
        unwritten = null;
        if (failure != null || trace == null) {
            return;
        }
        try {
            writer(trace.rig()).append(trace);
        } catch (IOException e) {
            failure = e;
        }
    }

    private TraceWriter writer(RigDescription rig) throws IOException {
        TraceWriter open = writer;
        if (open == null) {
            makeFolder();
            // Written out by the writer after each call.
            OutputStream stream = new BufferedOutputStream(Files.newOutputStream(file));
            out = stream;
            open = TraceWriter.begin(stream, header, rig);
            writer = open;
        }
        return open;
    }

    /** Writes the trace as it is to be kept. */
    void finish(Trace trace) throws IOException {
        unwritten = null;
        close();
        if (failure != null) {
            throw failure;
        }
        makeFolder();
        TraceFile.write(header, trace, file);
    }

    private void makeFolder() throws IOException {
        Path folder = file.getParent();
        if (folder != null) {
            Files.createDirectories(folder);
        }
    }

    /** Appends what is left of a trace that is not brought to its end. */
    @Override
    public void close() {
        write();
        OutputStream open = out;
        out = null;
        try {
            if (open != null) {
                open.close();
            }
        } catch (IOException e) {
            failure = e;
        }
    }
}
