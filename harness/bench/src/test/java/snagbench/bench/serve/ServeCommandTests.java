package snagbench.bench.serve;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The command as a process of its own, as its users start and stop it. */
@Timeout(value = 90, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class ServeCommandTests {
    private static final Duration LONGEST = Duration.ofSeconds(30);
    private static final String MAIN = "snagbench.bench.cli.Main";

    /** As the launcher does. */
    private static final int WARNS_OF_NATIVE_ACCESS = 22;

    @TempDir
    private Path folder;

    private Process serve(String... options) throws IOException {
        List<String> line = new ArrayList<>();
        line.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        line.add("-XX:TieredStopAtLevel=1");
        if (Runtime.version().feature() >= WARNS_OF_NATIVE_ACCESS) {
            line.add("--enable-native-access=ALL-UNNAMED");
        }
        line.addAll(List.of("-cp", System.getProperty("java.class.path"), MAIN, "serve"));
        line.addAll(List.of(options));
        return new ProcessBuilder(line)
                .directory(Path.of(System.getProperty("snagbench.root")).toFile())
                .redirectError(folder.resolve("err").toFile())
                .start();
    }

    private String errors() throws IOException {
        return Files.readString(folder.resolve("err"));
    }

    @Test
    void servesUntilItIsStoppedAndLeavesNothingBehind() throws Exception {
        Path link = folder.resolve("rig");
        Path log = folder.resolve("rig.log");
        Process process = serve(
                "--rig", "seedling-shuttle", "--baud", "500000", "--link", link.toString(), "--log", log.toString());
        try (BufferedReader out = process.inputReader(StandardCharsets.UTF_8)) {
            assertEquals("port " + link, out.readLine(), errors());
            try (HostFile file = new HostFile(link)) {
                assertEquals(5, WireHost.on(file, 5).open().session);
                await().atMost(LONGEST).until(() -> Files.readString(log).contains("session 5 opened"));
            }
            await().atMost(LONGEST).until(() -> Files.readString(log).contains("host has left"));
            process.destroy();
            assertTrue(process.waitFor(LONGEST.toSeconds(), TimeUnit.SECONDS), "it ends after SIGTERM");
        } finally {
            process.destroyForcibly();
        }
        assertFalse(Files.exists(link, LinkOption.NOFOLLOW_LINKS), "the link is gone");
        assertTrue(Files.readString(log).contains("has gone"), "the log is whole");
        assertEquals("", errors());
    }

    @Test
    void tellsThePortEachTimeThatItIsThere() throws Exception {
        Process process = serve("--rig", "seedling-shuttle", "--disconnect-after", "0.2", "--for", "0.3");
        try (BufferedReader out = process.inputReader(StandardCharsets.UTF_8)) {
            String first = out.readLine();
            assertTrue(first.startsWith("port /dev/pts/"), first);
            try (HostFile file = new HostFile(Path.of(first.substring("port ".length())))) {
                await().atMost(LONGEST).until(file::hasEnded);
            }
            String second = out.readLine();
            assertTrue(second.startsWith("port /dev/pts/"), second);
            try (HostFile file = new HostFile(Path.of(second.substring("port ".length())))) {
                assertEquals(6, WireHost.on(file, 6).open().session);
            }
        } finally {
            process.destroy();
            assertTrue(process.waitFor(LONGEST.toSeconds(), TimeUnit.SECONDS));
        }
    }
}
