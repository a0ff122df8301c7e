package snagbench.bench.script.read;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.Checked;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.Shown;

/** Finds a rig's file: {@code fixtures/NAME/rig.yaml} in a plan's folder or one above it, or in the current folder or one above. */
public final class RigFinder {
    private RigFinder() {}

    /**
     * Finds a rig's file.
     *
     * @param rigName the rig's name, as a plan or the command line gives it
     * @param planFile the plan, or the script, on whose behalf it is wanted
     * @param currentFolder where the user stands
     * @return the file, or a problem at the plan's "rig" that lists where was looked
     */
    public static Checked<Path> find(String rigName, Path planFile, Path currentFolder) {
        Set<Path> looked = new LinkedHashSet<>();
        Path planFolder =
                currentFolder.resolve(planFile).toAbsolutePath().normalize().getParent();
        Path current = currentFolder.toAbsolutePath().normalize();
        Optional<Path> found = lookUpwards(planFolder, rigName, looked).or(() -> lookUpwards(current, rigName, looked));
        if (found.isPresent()) {
            return new Checked<>(found.map(path -> asSeenFrom(current, path)), List.of());
        }
        return notFound(rigName, planFile, looked, starts(planFolder, current));
    }

    /** Where the ways up begin; one that lies on the other's way need not be told. */
    private static Set<Path> starts(@Nullable Path planFolder, Path current) {
        Set<Path> starts = new LinkedHashSet<>();
        if (planFolder != null) {
            starts.add(planFolder);
        }
        if (planFolder == null || !planFolder.startsWith(current)) {
            starts.add(current);
        }
        return starts;
    }

    private static Optional<Path> lookUpwards(@Nullable Path from, String rigName, Set<Path> looked) {
        for (Path folder = from; folder != null; folder = folder.getParent()) {
            Path fixtures = folder.resolve("fixtures");
            looked.add(fixtures);
            Optional<Path> file = fileOf(fixtures, rigName).filter(Files::isRegularFile);
            if (file.isPresent()) {
                return file;
            }
        }
        return Optional.empty();
    }

    /** Empty where no folder can have that name. */
    private static Optional<Path> fileOf(Path fixtures, String rigName) {
        try {
            return Optional.of(fixtures.resolve(rigName).resolve(RigFiles.FILE_NAME));
        } catch (InvalidPathException e) {
            return Optional.empty();
        }
    }

    /** A path is shown as the user would write it where that is shorter. */
    private static Path asSeenFrom(Path current, Path file) {
        return file.startsWith(current) ? current.relativize(file) : file;
    }

    private static Checked<Path> notFound(String rigName, Path planFile, Set<Path> looked, Set<Path> starts) {
        UserFile plan = UserFile.open(planFile, PlanReader.WHAT, PlanReader.EXAMPLE);
        Position at = plan.root().stream()
                .flatMap(root -> root.entries().stream())
                .filter(entry -> entry.key().equals("rig"))
                .findFirst()
                .map(entry -> entry.value().at())
                .orElse(Position.START);
        // What else is wrong with the plan is not this search's to tell: whoever reads the plan does.
        Findings findings = plan.findings().anew();
        findings.error(at, "there is no rig " + Shown.quoted(rigName), cure(rigName, looked, starts));
        return findings.with(Optional.empty());
    }

    private static String cure(String rigName, Set<Path> looked, Set<Path> starts) {
        Set<String> names = new LinkedHashSet<>();
        for (Path fixtures : looked) {
            names.addAll(rigsIn(fixtures));
        }
        List<String> parts = new ArrayList<>();
        NearestName.of(rigName, names).ifPresent(name -> parts.add("did you mean \"" + name + "\"?"));
        if (!names.isEmpty()) {
            parts.add("There are: " + String.join(", ", names) + ".");
        }
        parts.add("Looked for fixtures/" + rigName + "/" + RigFiles.FILE_NAME + " in "
                + starts.stream().map(Path::toString).collect(Collectors.joining(" and "))
                + ", and in each folder above");
        return String.join(" ", parts);
    }

    private static Set<String> rigsIn(Path fixtures) {
        if (!Files.isDirectory(fixtures)) {
            return Set.of();
        }
        try (var folders = Files.list(fixtures)) {
            return folders.limit(1000)
                    .filter(folder -> Files.isRegularFile(folder.resolve(RigFiles.FILE_NAME)))
                    .map(folder -> String.valueOf(folder.getFileName()))
                    .collect(Collectors.toCollection(TreeSet::new));
        } catch (IOException e) {
            return Set.of();
        }
    }
}
