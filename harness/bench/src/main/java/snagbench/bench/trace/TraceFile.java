package snagbench.bench.trace;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/**
 * A trace as a file: pieces, each a flat CBOR array with a checksum in a frame of its own, as on the wire. First what it is
 * of, then the rig's description and the list of recorded channels, then pieces with rows and events, and the end.
 * {@code docs/trace-files.md} tells it byte by byte.
 *
 * <p>So a file can be appended to while a rig runs ({@link TraceWriter}), a file that was cut off in mid-write is a shorter
 * trace, and a piece that was damaged is a gap, as on the line. The same trace gives the same bytes.
 */
public final class TraceFile {
    /** What the names of such files end in. */
    public static final String ENDING = ".trace";

    private TraceFile() {}

    /**
     * Writes a trace.
     *
     * @param header what it is of
     * @param trace what was seen
     * @param to takes the bytes; it is flushed, not closed
     * @throws IOException if it does not take them
     */
    public static void write(TraceHeader header, Trace trace, OutputStream to) throws IOException {
        OutputStream buffered = new BufferedOutputStream(to);
        TraceWriter.begin(buffered, header, trace.rig()).finish(trace);
        buffered.flush();
    }

    /**
     * Writes a trace beside a file and then puts it in the file's place, so that what stands there is never half of it.
     *
     * @param header what it is of
     * @param trace what was seen
     * @param file the file
     * @throws IOException if it cannot be written
     */
    public static void write(TraceHeader header, Trace trace, Path file) throws IOException {
        Path beside = file.resolveSibling(file.getFileName() + ".new");
        try (OutputStream to = Files.newOutputStream(beside)) {
            write(header, trace, to);
        }
        Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING);
    }

    /**
     * Reads a trace.
     *
     * @param from gives the bytes; it is read to its end, not closed
     * @return what was seen
     * @throws IOException if it cannot be read, or is no trace file; the message says why
     */
    public static StoredTrace read(InputStream from) throws IOException {
        return new TraceReader(new BufferedInputStream(from)).read();
    }

    /**
     * Reads a trace.
     *
     * @param file the file
     * @return what was seen
     * @throws IOException if it cannot be read, or is no trace file; the message says why
     */
    public static StoredTrace read(Path file) throws IOException {
        try (InputStream from = Files.newInputStream(file)) {
            return read(from);
        }
    }
}
