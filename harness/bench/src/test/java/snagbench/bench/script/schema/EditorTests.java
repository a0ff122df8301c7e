package snagbench.bench.script.schema;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.Shuttle;

/**
 * What an editor does with the schemas: the YAML language server, fed with them, completes what the rig has and marks what it
 * has not. It is installed by npm into {@code target/editor}; without Node and npm these tests fail, and are not passed over.
 */
@Tag("long")
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class EditorTests {
    private static final Path ROOT = Path.of(System.getProperty("snagbench.root"));
    private static final String SERVER = "2.0.0";
    private static final int LONGEST_MINUTES = 5;

    private LanguageServer server = LanguageServer.none();

    @BeforeAll
    void installAndStart(@TempDir Path folder) throws IOException, InterruptedException {
        Path home = ROOT.resolve("harness/bench/target/editor");
        Path script = home.resolve("node_modules/yaml-language-server/bin/yaml-language-server");
        if (!Files.exists(script)) {
            Files.createDirectories(home);
            Files.writeString(
                    home.resolve("package.json"),
                    "{\"private\": true, \"dependencies\": {\"yaml-language-server\": \"" + SERVER + "\"}}");
            Process npm = new ProcessBuilder("npm", "install", "--no-package-lock", "--no-audit", "--no-fund")
                    .directory(home.toFile())
                    .redirectErrorStream(true)
                    .redirectOutput(home.resolve("npm.log").toFile())
                    .start();
            assertTrue(npm.waitFor(LONGEST_MINUTES, TimeUnit.MINUTES), "npm does not come back");
            assertEquals(0, npm.exitValue(), () -> "npm cannot install it; see " + home.resolve("npm.log"));
        }
        server = LanguageServer.start(script, folder);
        RigDescription rig = Shuttle.description();
        RigFile file = Shuttle.file();
        for (SchemaKind kind : SchemaKind.values()) {
            Files.writeString(folder.resolve(kind.word() + ".json"), Schemas.text(kind, rig, file));
        }
    }

    @AfterAll
    void stop() {
        server.close();
    }

    private static String script(String name) throws IOException {
        String text = Files.readString(ROOT.resolve("test-plans/seedling-shuttle/" + name + ".fault.yaml"));
        return "# yaml-language-server: $schema=fault-script.json\n" + text.substring(text.indexOf('\n') + 1);
    }

    private void assertMarked(String was, String becomes, String words) throws IOException {
        String good = script("reach-blocked-midway");
        assertTrue(good.contains(was), was);
        String spoilt = good.replace(was, becomes);
        List<LanguageServer.Mark> marks = server.open(spoilt);
        int line = (int) spoilt.substring(0, spoilt.indexOf(becomes)).lines().count();
        assertTrue(
                marks.stream()
                        .anyMatch(mark -> Math.abs(mark.line() - line) <= 1
                                && mark.message().contains(words)),
                () -> becomes + " near line " + line + ": " + marks);
    }

    @Test
    void nothingIsMarkedInAGoodScript() throws IOException {
        assertEquals(List.of(), server.open(script("reach-blocked-midway")));
        assertEquals(List.of(), server.open(script("reach-current-offset")));
    }

    @Test
    void whatTheRigHasNotIsMarked() throws IOException {
        assertMarked("answered-by: FS-02", "anwsered-by: FS-02", "anwsered-by");
        assertMarked("answered-by: FS-02", "answered-by: FS-82", "Value is not accepted");
        assertMarked("reach.current: stuck-at", "reach.curent: stuck-at", "reach.curent");
        assertMarked("step: REACHING, reach.position", "step: REACHIN, reach.position", "");
        assertMarked("battery.voltage: above", "batery.voltage: above", "Value is not accepted");
        assertMarked("lasts: 900 ms", "lasts: 900", "string");
    }

    @Test
    void whatTheRigHasIsOffered() throws IOException {
        String head = "# yaml-language-server: $schema=fault-script.json\n";
        assertOffered(head + "fault-script: x\nbegin:\n  - send: ", "start-run");
        assertOffered(head + "fault-script: x\nexpect:\n  - answered-by: ", "FS-02", "FS-13");
        assertOffered(head + "fault-script: x\ninject:\n  - when:\n      step: ", "REACHING", "DRAWING_BACK");
        assertOffered(
                head + "fault-script: x\ninject:\n  - when:\n      ", "reach.position", "battery.voltage", "step");
        assertOffered(head + "fault-script: x\ninject:\n  - name: y\n    ", "when", "channels", "until", "lasts");
        assertOffered(head + "fault-script: x\ninject:\n  - channels:\n      ", "reach.current", "gripper.beam");
        assertOffered(
                head + "fault-script: x\ninject:\n  - channels:\n      gripper.beam: ", "stuck-at broken", "freeze");
    }

    private void assertOffered(String text, String... names) throws IOException {
        List<String> offered = server.complete(text);
        for (String name : names) {
            assertTrue(offered.contains(name), () -> name + " behind " + text + ": " + offered);
        }
    }
}
