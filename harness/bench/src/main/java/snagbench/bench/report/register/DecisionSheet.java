package snagbench.bench.report.register;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import snagbench.bench.run.JournalFormat;
import tools.jackson.core.JacksonException;

/**
 * The decision table of a rig's register, and what came of laying it against a run's traces; for pages that show it.
 *
 * @param table of the register as it was when this was made
 * @param check of the run's traces
 */
public record DecisionSheet(DecisionTable table, AnswerCheck check) {
    /** Name of the file in a run's folder. */
    public static final String FILE_NAME = "decision-table.json";

    /** Checks that each hole has its count. */
    public DecisionSheet {
        if (table.holes().size() != check.holes().size()) {
            throw new IllegalArgumentException(
                    table.holes().size() + " holes and " + check.holes().size() + " counts of them");
        }
    }

    /**
     * Writes it into a run's folder.
     *
     * @param folder takes the file
     * @return the file
     * @throws IOException if it cannot be written
     */
    public Path write(Path folder) throws IOException {
        return Files.writeString(
                folder.resolve(FILE_NAME),
                JournalFormat.mapper().writerWithDefaultPrettyPrinter().writeValueAsString(this) + "\n");
    }

    /**
     * Reads it from a run's folder.
     *
     * @param folder of the run
     * @return empty where nobody asked for it yet
     * @throws IOException if it is there and cannot be read
     */
    public static Optional<DecisionSheet> read(Path folder) throws IOException {
        Path file = folder.resolve(FILE_NAME);
        if (!Files.exists(file)) {
            return Optional.empty();
        }
        try {
            Optional<DecisionSheet> read =
                    Optional.ofNullable(JournalFormat.mapper().readValue(Files.readString(file), DecisionSheet.class));
            Optional<String> missing = read.flatMap(JournalFormat::missing);
            if (missing.isPresent()) {
                throw new IOException(notWritten(file, "it lacks \"" + missing.get() + "\""));
            }
            return read;
        } catch (JacksonException e) {
            throw new IOException(notWritten(file, e.getOriginalMessage()), e);
        }
    }

    private static String notWritten(Path file, String why) {
        return file + " is not what a report writes there: " + why + "; \"report --decision-table\" makes it again";
    }
}
