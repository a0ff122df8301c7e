package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** A folder of the user's with the project's own fixtures and test plans, to run and to spoil. */
record Bench(Path folder) {
    static final String PLANS = "test-plans/seedling-shuttle/";
    static final String RIG = "fixtures/seedling-shuttle/";
    static final List<String> SCRIPTS = List.of(
            "reach-blocked-midway",
            "reach-blocked-near-home",
            "reach-current-too-high",
            "reach-current-offset",
            "current-spike-too-short",
            "grip-not-there-yet",
            "reach-stopped-short-in-the-rack-zone",
            "obstacle-in-the-way");

    static Path project() {
        return Path.of(System.getProperty("snagbench.root"));
    }

    /** Copies of the committed files. */
    static Bench in(Path empty) throws IOException {
        for (String name : List.of("fixtures", "test-plans")) {
            try (Stream<Path> files = Files.walk(project().resolve(name))) {
                for (Path file : files.toList()) {
                    Path to = empty.resolve(project().relativize(file).toString());
                    if (Files.isDirectory(file)) {
                        Files.createDirectories(to);
                    } else {
                        Files.copy(file, to);
                    }
                }
            }
        }
        return new Bench(empty);
    }

    Path file(String name) {
        return folder.resolve(name);
    }

    String read(String name) throws IOException {
        return Files.readString(file(name), StandardCharsets.UTF_8);
    }

    Path write(String name, String text) throws IOException {
        return Files.writeString(file(name), text, StandardCharsets.UTF_8);
    }

    /** Spoils a good file in one place, which must be there once. */
    void spoil(String name, String was, String becomes) throws IOException {
        String text = read(name);
        assertEquals(2, text.split(java.util.regex.Pattern.quote(was), -1).length, name + " has once: " + was);
        write(name, text.replace(was, becomes));
    }

    /** A plan of one script, often. */
    String plan(String script, int repeats) throws IOException {
        String name = PLANS + "often.plan.yaml";
        write(name, """
                test-plan: often
                rig: seedling-shuttle
                run-time: 30 s
                reserve: 5 s
                scripts:
                  - %s.fault.yaml: { repeat: %d }
                """.formatted(script, repeats));
        return name;
    }

    boolean hasResults() {
        return Files.exists(file("results"));
    }

    /** The folder of the only run. */
    Path run() throws IOException {
        try (Stream<Path> runs = Files.list(file("results"))) {
            List<Path> all = runs.toList();
            assertEquals(1, all.size(), () -> "one run in " + all);
            assertTrue(Files.isDirectory(all.get(0)));
            return all.get(0);
        }
    }
}
