package snagbench.bench.run;

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
 * Keeps a trace while it grows. It is appended to, so that a run that is cut short leaves what was seen; at the end it is written anew in one go, so that its bytes do not hang on how often somebody looked.
 *
 * <p>A disk that is full must not keep a rig from its safe stop: what goes wrong is told at the end.
 */
final class TraceKeeper implements AutoCloseable {
    private final Path file;
    private final TraceHeader header;

    private @Nullable OutputStream out;
    private @Nullable TraceWriter writer;
    private @Nullable IOException failure;

    TraceKeeper(Path file, TraceHeader header) {
        this.file = file;
        this.header = header;
    }

    /** Appends what is new. */
    void append(Trace trace) {
        if (failure != null) {
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
            OutputStream stream = Files.newOutputStream(file);
            out = stream;
            open = TraceWriter.begin(stream, header, rig);
            writer = open;
        }
        return open;
    }

    /** Writes the trace as it is to be kept. */
    void finish(Trace trace) throws IOException {
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

    @Override
    public void close() {
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
