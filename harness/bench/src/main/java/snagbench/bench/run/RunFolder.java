package snagbench.bench.run;

import java.io.IOException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import snagbench.bench.trace.TraceFile;

/**
 * The folder of one run, which holds all that comes of it.
 *
 * @param path an existing folder
 */
public record RunFolder(Path path) {
    /** Name of the folder in it that takes the traces. */
    public static final String TRACES = "traces";

    private static final DateTimeFormatter STAMP = DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH-mm-ss", Locale.ROOT);
    private static final int MOST_IN_A_SECOND = 1000;
    private static final int LONGEST_NAME = 40;

    /**
     * Makes a new folder for a run.
     *
     * @param results the folder that takes all runs; made if it is not there
     * @param started when the run starts, in local time
     * @param name of the plan
     * @return a folder that was not there before
     * @throws IOException if it cannot be made
     */
    public static RunFolder create(Path results, LocalDateTime started, String name) throws IOException {
        Files.createDirectories(results);
        String base = STAMP.format(started) + "-" + slug(name);
        for (int i = 1; i < MOST_IN_A_SECOND; i++) {
            try {
                return new RunFolder(Files.createDirectory(results.resolve(i == 1 ? base : base + "-" + i)));
            } catch (FileAlreadyExistsException e) {
                // Another run began in the same second: the next name is tried.
            }
        }
        throw new IOException("no free name for a run's folder in " + results + ", from " + base + " on");
    }

    /** The file of a trace, from the folder on, with slashes: as the journal names it. */
    static String traceName(int index, String script) {
        return String.format(Locale.ROOT, "%s/%04d-%s%s", TRACES, index + 1, slug(script), TraceFile.ENDING);
    }

    /**
     * Takes the folder away again, if nothing was run and so nothing is in it.
     *
     * @throws IOException if it is empty and cannot be taken away
     */
    public void discardIfEmpty() throws IOException {
        try {
            Files.deleteIfExists(path);
        } catch (DirectoryNotEmptyException e) {
            // There is something in it to keep.
            return;
        }
    }

    static String slug(String name) {
        String slug =
                name.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-", "");
        String brief = slug.substring(0, Math.min(LONGEST_NAME, slug.length())).replaceAll("-$", "");
        return brief.isEmpty() ? "run" : brief;
    }
}
