package snagbench.bench.run;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * The journal of a run: one JSON object a line, appended and forced to disk one by one, so that whatever happens, what
 * was finished is there. First the header, then a result for each run of a script, then whether the plan noticed changes of the control code, then the end, if it came to that.
 */
public final class Journal implements AutoCloseable {
    /** Name of the file in a run's folder. */
    public static final String FILE_NAME = "journal.jsonl";

    private final FileChannel channel;
    private final JournalFormat format = new JournalFormat();

    private Journal(FileChannel channel) {
        this.channel = channel;
    }

    /**
     * Begins a journal.
     *
     * @param folder the run's own folder, which exists
     * @param header how the run begins
     * @return open for results
     * @throws IOException if it cannot be written, or there is one already
     */
    public static Journal create(Path folder, RunHeader header) throws IOException {
        FileChannel channel =
                FileChannel.open(folder.resolve(FILE_NAME), StandardOpenOption.WRITE, StandardOpenOption.CREATE_NEW);
        Journal journal = new Journal(channel);
        journal.append(journal.format.line(header));
        return journal;
    }

    /**
     * Appends a result.
     *
     * @param result what came of a script
     * @throws IOException if it cannot be written
     */
    public void append(ScriptResult result) throws IOException {
        append(format.line(result));
    }

    /**
     * Appends whether the plan noticed a change of the control code.
     *
     * @param result of the change
     * @throws IOException if it cannot be written
     */
    public void append(ChangeResult result) throws IOException {
        append(format.line(result));
    }

    /**
     * Appends how the run ended.
     *
     * @param end how
     * @throws IOException if it cannot be written
     */
    public void append(RunEnd end) throws IOException {
        append(format.line(end));
    }

    private void append(String line) throws IOException {
        ByteBuffer bytes = ByteBuffer.wrap((line + "\n").getBytes(StandardCharsets.UTF_8));
        while (bytes.hasRemaining()) {
            channel.write(bytes);
        }
        channel.force(false);
    }

    @Override
    public void close() throws IOException {
        channel.close();
    }
}
