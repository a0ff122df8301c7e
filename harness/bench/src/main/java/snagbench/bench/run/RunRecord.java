package snagbench.bench.run;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tools.jackson.core.JacksonException;

/**
 * A run as its journal tells it, whole or cut short.
 *
 * @param header how it began
 * @param results of all fault runs that were finished, in order
 * @param controls of all control runs that were finished, in order
 * @param changes of the control code that were tried out, in order
 * @param end how it ended; empty if the harness never got to say
 */
public record RunRecord(
        RunHeader header,
        List<ScriptResult> results,
        List<ScriptResult> controls,
        List<ChangeResult> changes,
        Optional<RunEnd> end) {
    /** Copies the lists. */
    public RunRecord {
        results = List.copyOf(results);
        controls = List.copyOf(controls);
        changes = List.copyOf(changes);
    }

    /**
     * A run without control runs.
     *
     * @param header how it began
     * @param results of all scripts that were finished, in order
     * @param end how it ended; empty if the harness never got to say
     */
    public RunRecord(RunHeader header, List<ScriptResult> results, Optional<RunEnd> end) {
        this(header, results, List.of(), List.of(), end);
    }

    /**
     * The run as it is shown: a pass that its control runs do not bear out is inconclusive there, with a finding that says why.
     * To conclude twice changes nothing more.
     *
     * @return the same run, its results as they are to be taken
     */
    public RunRecord concluded() {
        List<ScriptResult> taken = Conclusions.concluded(results, controls);
        return new RunRecord(header, taken, controls, changes, end);
    }

    /**
     * Reads a journal. A last line that was not written to its end is left out: the run was cut short in it.
     *
     * @param journal the file
     * @return the run
     * @throws IOException if it cannot be read, or is no journal; the message says which line and why
     */
    public static RunRecord read(Path journal) throws IOException {
        List<String> lines = wholeLines(journal);
        JournalFormat format = new JournalFormat();
        Optional<RunHeader> header = Optional.empty();
        List<ScriptResult> results = new ArrayList<>();
        List<ScriptResult> controls = new ArrayList<>();
        List<ChangeResult> changes = new ArrayList<>();
        Optional<RunEnd> end = Optional.empty();
        for (int i = 0; i < lines.size(); i++) {
            Record line;
            try {
                line = format.read(lines.get(i));
            } catch (JacksonException | IllegalArgumentException e) {
                throw new IOException(journal + ":" + (i + 1) + ": this line is not a journal's: " + firstLine(e));
            }
            if (line instanceof RunHeader first) {
                header = Optional.of(first);
            } else if (line instanceof ScriptResult result) {
                (result.role() == Role.FAULT ? results : controls).add(result);
            } else if (line instanceof ChangeResult change) {
                changes.add(change);
            } else if (line instanceof RunEnd last) {
                end = Optional.of(last);
            }
        }
        return new RunRecord(
                header.orElseThrow(() -> new IOException(journal + ": no header; this is not a journal")),
                results,
                controls,
                changes,
                end);
    }

    /** Cut at the bytes: what was cut short need not even end with a whole letter. */
    private static List<String> wholeLines(Path journal) throws IOException {
        byte[] bytes = Files.readAllBytes(journal);
        int end = bytes.length;
        while (end > 0 && bytes[end - 1] != '\n') {
            end--;
        }
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes, 0, end))
                    .toString()
                    .lines()
                    .toList();
        } catch (CharacterCodingException e) {
            throw new IOException(journal + ": this is not UTF-8 text, and so no journal", e);
        }
    }

    private static String firstLine(Exception e) {
        return String.valueOf(e.getMessage()).lines().findFirst().orElse("");
    }

    /**
     * What was planned and not run.
     *
     * @return titles, in order
     */
    public List<String> notRun() {
        return header.planned()
                .subList(
                        Math.min(results.size(), header.planned().size()),
                        header.planned().size());
    }
}
