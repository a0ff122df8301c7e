package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.stream.Stream;

/** What tests against firmware need beside it: its build, and copies of a rig's and its scripts' files. */
final class FirmwareFiles {
    private static final Path ROOT = Path.of("../..");

    private FirmwareFiles() {}

    /** Builds; gives what was said, which is nothing when all is well. */
    static String make(Path fixture, String target) throws IOException, InterruptedException {
        Process make = new ProcessBuilder("make", "-s", "-C", fixture.toString(), target)
                .redirectErrorStream(true)
                .start();
        String said = new String(make.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(0, make.waitFor(), said);
        return said;
    }

    /** Copies the files of a rig, its plans, and the scripts of the virtual shuttle, which its plans use. */
    static void copy(Path folder, String rig) throws IOException {
        for (String from : List.of("fixtures/" + rig, "test-plans/" + rig, "test-plans/seedling-shuttle")) {
            Files.createDirectories(folder.resolve(from));
            try (Stream<Path> files = Files.list(ROOT.resolve(from))) {
                for (Path file : files.filter(Files::isRegularFile).toList()) {
                    Files.copy(
                            file,
                            folder.resolve(from).resolve(file.getFileName()),
                            StandardCopyOption.REPLACE_EXISTING);
                }
            }
        }
    }

    /** Writes a plan of scripts; gives its path from the folder. */
    static String plan(Path folder, String rig, String... scripts) throws IOException {
        StringBuilder text =
                new StringBuilder("test-plan: tests\nrig: " + rig + "\nrun-time: 30 s\nreserve: 5 s\nscripts:\n");
        for (String script : scripts) {
            text.append("  - ").append(script).append(".fault.yaml\n");
        }
        String path = "test-plans/" + rig + "/tests.plan.yaml";
        Files.writeString(folder.resolve(path), text);
        return path;
    }

    /** Writes a script, "hangs", that makes the loop hang while the arm goes out. */
    static void writeHangs(Path folder, String rig) throws IOException {
        Files.writeString(folder.resolve("test-plans/" + rig + "/hangs.fault.yaml"), """
                fault-script: the loop hangs
                failsafe: FS-13
                why: a test's own
                needs: [motion]
                begin:
                  - send: start-run
                  - wait-for: { step: REACHING }
                    within: 2 s
                inject:
                  - name: hangs
                    when: { step: REACHING, reach.position: at least 100 mm }
                    channels:
                      loop.hang: stuck-at 1
                    lasts: 1 s
                expect:
                  - must-not-fire: FS-01
                end: 1 s after hangs
                """);
    }
}
