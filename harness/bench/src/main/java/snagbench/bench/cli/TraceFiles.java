package snagbench.bench.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.TraceFile;

/** Traces as the user names them. */
final class TraceFiles {
    private final Surroundings surroundings;

    TraceFiles(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    /** A trace; a table needs the rig's description to be understood. */
    StoredTrace read(String given, Path rigFile) throws UserError {
        Path file = surroundings.path(given);
        if (Files.isDirectory(file)) {
            throw new UserError(
                    ExitStatus.FILES, given + " is a folder; a run keeps its traces in the folder \"traces\" in its own");
        }
        try {
            return TraceFile.read(file);
        } catch (NoSuchFileException e) {
            throw new UserError(ExitStatus.FILES, "there is no file " + given);
        } catch (IOException e) {
            throw new UserError(ExitStatus.FILES, given + ": " + e.getMessage());
        }
    }
}
