package snagbench.bench.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Checked;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.Problem;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.read.RegisterReader;
import snagbench.bench.script.read.RigFiles;
import snagbench.bench.script.read.RigFinder;
import snagbench.bench.script.read.Snapshots;

/** Finds a rig's files: by the name that a plan or the user gives, or by the folder in which a script lies. */
final class RigChoice {
    private final Surroundings surroundings;

    RigChoice(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    /** A rig's file with its stored description, and its fail-safe register where it has one. */
    record Rig(Path file, RigFile content, RigDescription description, Optional<FailSafeRegister> register) {}

    /** The rig's file for a name, or for a path to the file or its folder. */
    Path find(String given, Path from) throws UserError {
        Path path = surroundings.path(given);
        if (Files.isDirectory(path)) {
            path = path.resolve(RigFiles.FILE_NAME);
        }
        if (Files.isRegularFile(path)) {
            return path;
        }
        if (Path.of(given).getNameCount() > 1) {
            throw new UserError(ExitStatus.FILES, "there is no " + RigFiles.FILE_NAME + " at " + given);
        }
        Checked<Path> found = RigFinder.find(given, from, surroundings.folder());
        return found.value()
                .map(surroundings::path)
                .orElseThrow(() -> new UserError(ExitStatus.FILES, words(found.problems())));
    }

    /** Refuses what is no file. */
    static void requireFile(Path file, Surroundings surroundings) throws UserError {
        if (!Files.isRegularFile(file)) {
            Path shown = surroundings.show(file);
            throw new UserError(
                    ExitStatus.FILES,
                    Files.isDirectory(file)
                            ? shown + " is a folder, where a file is wanted"
                            : "there is no file " + shown);
        }
    }

    /** The rig that a plan names; if there is none, that is a problem of the plan, added to the list. */
    Optional<Path> findFor(String name, Path plan, List<Problem> problems) {
        Checked<Path> found = RigFinder.find(name, plan, surroundings.folder());
        problems.addAll(found.problems());
        return found.value().map(surroundings::path);
    }

    /** The rig's file beside a register. */
    Path beside(Path register) throws UserError {
        Path file = register.resolveSibling(RigFiles.FILE_NAME);
        if (!Files.isRegularFile(file)) {
            throw new UserError(
                    ExitStatus.FILES,
                    surroundings.show(register) + ": a register lies beside its " + RigFiles.FILE_NAME
                            + ", and there is none; say which rig it is for with --rig NAME");
        }
        return file;
    }

    /** The rig for a script that nobody named one for: the one whose name is the script's folder. */
    Path guess(Path script) throws UserError {
        requireFile(script, surroundings);
        return guessByFolder(script);
    }

    /** The same for a script that need not be there yet. */
    Path guessByFolder(Path script) throws UserError {
        Path folder = script.toAbsolutePath().normalize().getParent();
        String name = folder == null || folder.getFileName() == null
                ? ""
                : folder.getFileName().toString();
        Checked<Path> found = RigFinder.find(name, script, surroundings.folder());
        return found.value()
                .map(surroundings::path)
                .orElseThrow(() -> new UserError(
                        ExitStatus.FILES,
                        surroundings.show(script)
                                + ": which rig is it for? Say so with --rig NAME; the folder's name, \"" + name
                                + "\", is no rig in fixtures/"));
    }

    /** Reads a rig's file and its snapshot; problems are added to the list. */
    Optional<Rig> read(Path file, List<Problem> problems) {
        Checked<RigFile> rig = RigFiles.readRig(file, Optional.empty());
        problems.addAll(rig.problems());
        if (rig.value().isEmpty()) {
            return Optional.empty();
        }
        Checked<RigDescription> snapshot = Snapshots.read(rig.value().get().snapshot());
        List<Problem> anew = new ArrayList<>(snapshot.problems());
        anew.removeAll(problems);
        problems.addAll(anew);
        if (snapshot.value().isEmpty()) {
            return Optional.empty();
        }
        RigDescription description = snapshot.value().get();
        return Optional.of(new Rig(
                file,
                rig.value().get(),
                description,
                register(file, description, rig.value().get(), problems)));
    }

    private static Optional<FailSafeRegister> register(
            Path file, RigDescription description, RigFile content, List<Problem> problems) {
        Path register = RegisterReader.registerOf(file);
        if (!Files.exists(register)) {
            return Optional.empty();
        }
        Checked<FailSafeRegister> read = RegisterReader.read(register, description, content);
        problems.addAll(read.problems());
        return read.value();
    }

    private static String words(List<Problem> problems) {
        return String.join(
                "; ",
                problems.stream()
                        .map(problem -> problem.message() + (problem.cure().isEmpty() ? "" : "\n    " + problem.cure()))
                        .toList());
    }
}
