package snagbench.bench.script.read;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import snagbench.bench.script.Checked;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;

/** What a file of the user's is: told by its name, or by the key that only its kind has. */
public enum FileKind {
    /** One fault, when it strikes, and what must follow. */
    FAULT_SCRIPT("a fault script", ".fault.yaml", "fault-script"),
    /** Fault scripts in an order. */
    TEST_PLAN("a test plan", ".plan.yaml", "test-plan"),
    /** What only people know of a rig. */
    RIG("a rig's file", RigFiles.FILE_NAME, "rig"),
    /** The list of fail-safes. */
    REGISTER("a fail-safe register", RegisterReader.FILE_NAME, "register"),
    /** What a rig has told of itself. */
    SNAPSHOT(Snapshots.WHAT, RigFiles.SNAPSHOT_NAME, "digest");

    private final String words;
    private final String name;
    private final String key;

    FileKind(String words, String name, String key) {
        this.words = words;
        this.name = name;
        this.key = key;
    }

    /**
     * The kind in words.
     *
     * @return such as "a fault script"
     */
    public String words() {
        return words;
    }

    /**
     * Tells what a file is by its name alone.
     *
     * @param file need not be there
     * @return the kind, if the name says it
     */
    public static Optional<FileKind> byName(Path file) {
        String own = String.valueOf(file.getFileName());
        return Arrays.stream(values())
                .filter(kind -> kind.name.startsWith(".") ? own.endsWith(kind.name) : own.equals(kind.name))
                .findFirst();
    }

    /**
     * Tells what a file is by its name, else by what stands in it; a file whose name says one thing and whose content another
     * is told of, since a run would take it for what its name says.
     *
     * @param file to be looked at
     * @return the kind, or the problem that keeps it from being told
     */
    public static Checked<FileKind> of(Path file) {
        Optional<FileKind> named = byName(file);
        UserFile opened =
                UserFile.open(file, named.map(FileKind::words).orElse("a file of a rig"), "fault-script: ...");
        if (opened.root().isEmpty()) {
            // What is wrong with it, the reader of its kind tells.
            return named.map(kind -> new Checked<>(Optional.of(kind), List.of()))
                    .orElseGet(() -> opened.findings().with(Optional.empty()));
        }
        Optional<FileKind> held = byContent(opened.root().get());
        Findings findings = opened.findings().anew();
        if (named.isPresent() && held.isPresent() && named.get() != held.get()) {
            findings.error(
                    at(opened.root().get(), held.get()),
                    "the file's name says " + named.get().words + ", and this key is that of " + held.get().words,
                    "name it " + held.get().example() + ", or begin it with \"" + named.get().key
                            + ":\" in place of this");
        } else if (named.isEmpty() && held.isEmpty()) {
            findings.error(
                    opened.root().get().at(),
                    "neither the name " + Shown.quoted(String.valueOf(file.getFileName()))
                            + " nor a key tells what kind of file this is",
                    Arrays.stream(values())
                            .map(kind -> kind.words + " is named " + kind.example() + " and has the key \"" + kind.key
                                    + "\"")
                            .collect(Collectors.joining("; ")));
        }
        return findings.with(named.or(() -> held));
    }

    private String example() {
        return name.startsWith(".") ? "*" + name : name;
    }

    /** A plan has a rig too: the kinds are asked in the order in which their keys tell the most. */
    private static Optional<FileKind> byContent(YamlMapping root) {
        return Arrays.stream(values())
                .filter(kind ->
                        root.entries().stream().anyMatch(entry -> entry.key().equals(kind.key)))
                .findFirst();
    }

    private static Position at(YamlMapping root, FileKind kind) {
        return root.entries().stream()
                .filter(entry -> entry.key().equals(kind.key))
                .findFirst()
                .map(YamlMapping.Entry::at)
                .orElse(root.at());
    }
}
