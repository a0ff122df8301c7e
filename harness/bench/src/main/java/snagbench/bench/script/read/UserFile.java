package snagbench.bench.script.read;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlDocument;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlReader;

/**
 * A file that has been read as YAML.
 *
 * @param findings what is wrong with it so far
 * @param root its keys; empty where that has been reported
 */
record UserFile(Findings findings, Optional<YamlMapping> root) {
    private static final int MOST_LOOKED_AT = 10_000;

    /**
     * Reads a file.
     *
     * @param what what it should be, such as "a fault script"
     * @param example its first line
     */
    static UserFile open(Path file, String what, String example) {
        byte[] bytes;
        try (InputStream in = Files.newInputStream(file)) {
            bytes = in.readNBytes(YamlReader.MOST_BYTES + 1);
        } catch (IOException e) {
            Findings findings = new Findings(file, List.of());
            String cure = Files.exists(file) ? "" : siblings(file);
            findings.error(Position.START, unreadable(file, e), cure);
            return new UserFile(findings, Optional.empty());
        }
        YamlDocument document = YamlReader.read(bytes);
        Findings findings = new Findings(file, document.lines());
        findings.takeAll(document.problems());
        if (document.root().isEmpty()) {
            if (document.problems().isEmpty()) {
                findings.error(Position.START, "the file is empty; " + what + " is wanted", "it starts: " + example);
            }
            return new UserFile(findings, Optional.empty());
        }
        return new UserFile(
                findings, new Values(findings).mapping(document.root().get(), what, example));
    }

    private static String unreadable(Path file, IOException e) {
        if (e instanceof NoSuchFileException) {
            return "there is no file " + Shown.quoted(file.toString());
        }
        return Files.isDirectory(file)
                ? Shown.quoted(file.toString()) + " is a folder, where a file is wanted"
                : "the file cannot be read: " + reason(e);
    }

    private static String reason(IOException e) {
        String reason = e instanceof FileSystemException system ? system.getReason() : e.getMessage();
        return reason == null ? e.getClass().getSimpleName() : reason;
    }

    /** The nearest file name in the folder of a file that is not there. */
    static String siblings(Path file) {
        Path folder = file.toAbsolutePath().normalize().getParent();
        Path name = file.getFileName();
        if (folder == null || name == null) {
            return "";
        }
        if (!Files.isDirectory(folder)) {
            return "there is no folder " + Shown.quoted(folder.toString()) + " either";
        }
        try (Stream<Path> files = Files.list(folder)) {
            List<String> names = files.limit(MOST_LOOKED_AT)
                    .filter(Files::isRegularFile)
                    .map(other -> String.valueOf(other.getFileName()))
                    .sorted()
                    .toList();
            return nearest(name.toString(), names)
                    .map(near -> "did you mean \"" + near + "\"?")
                    .orElse("");
        } catch (IOException | UncheckedIOException e) {
            return "";
        }
    }

    /** The nearest name among those with the same ending, which would make all of them alike; else among all. */
    private static Optional<String> nearest(String name, List<String> names) {
        int dot = name.indexOf('.');
        String ending = dot < 0 ? "" : name.substring(dot);
        List<String> alike = names.stream()
                .filter(other -> dot > 0 && other.endsWith(ending))
                .map(other -> other.substring(0, other.length() - ending.length()))
                .toList();
        return alike.isEmpty()
                ? NearestName.of(name, names)
                : NearestName.of(name.substring(0, dot), alike).map(near -> near + ending);
    }
}
