package snagbench.bench.cli;

import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Problem;
import snagbench.bench.script.RigDescription;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.TraceFile;
import snagbench.bench.trace.TraceTable;
import snagbench.bench.trace.TraceTableReader;

/** Traces as the user names them: files of runs and recordings, and tables. */
final class TraceFiles {
    private static final String TABLE_ENDING = ".csv";

    private final Surroundings surroundings;

    TraceFiles(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    /** Which rig's file it is, asked only where that has to be known. */
    interface RigFileChoice {
        Path file() throws UserError;
    }

    /** A trace; a table needs the rig's description to be understood. */
    StoredTrace read(String given, RigFileChoice rig) throws UserError {
        Path file = surroundings.path(given);
        if (Files.isDirectory(file)) {
            throw new UserError(
                    ExitStatus.FILES,
                    given + " is a folder; a run keeps its traces in the folder \"traces\" in its own");
        }
        try {
            return given.endsWith(TABLE_ENDING) ? readTable(file, description(rig.file())) : TraceFile.read(file);
        } catch (NoSuchFileException e) {
            throw new UserError(ExitStatus.FILES, "there is no file " + given);
        } catch (CharacterCodingException e) {
            throw new UserError(ExitStatus.FILES, given + ": this is not UTF-8 text; save the table as UTF-8");
        } catch (IOException e) {
            throw new UserError(ExitStatus.FILES, given + ": " + e.getMessage());
        }
    }

    private StoredTrace readTable(Path file, RigDescription rig) throws IOException {
        try (Reader in = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
            TraceTableReader.Imported imported = TraceTableReader.read(in, rig);
            imported.warnings().forEach(warning -> surroundings.err().println("warning: " + file + ": " + warning));
            return imported.stored();
        }
    }

    private RigDescription description(Path rigFile) throws UserError {
        List<Problem> problems = new ArrayList<>();
        Optional<RigChoice.Rig> rig = new RigChoice(surroundings).read(rigFile, problems);
        if (rig.isEmpty()) {
            problems.forEach(problem -> ProblemText.lines(problem, surroundings).forEach(surroundings.err()::println));
            throw new UserError(
                    ExitStatus.FILES, "the rig's files cannot be read, which tell what a table's columns are");
        }
        return rig.get().description();
    }

    void write(StoredTrace stored, Path file) throws UserError {
        try {
            TraceFile.write(stored.header(), stored.trace(), file);
        } catch (IOException e) {
            throw new UserError(ExitStatus.FILES, "the trace cannot be written: " + RunCommand.reason(e));
        }
        surroundings.out().println("Trace: " + surroundings.show(file));
    }

    void writeTable(StoredTrace stored, Path file) throws UserError {
        try (Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
            TraceTable.write(stored.trace(), out);
        } catch (IOException e) {
            throw new UserError(ExitStatus.FILES, "the table cannot be written: " + RunCommand.reason(e));
        }
        surroundings.out().println("Table: " + surroundings.show(file));
    }
}
