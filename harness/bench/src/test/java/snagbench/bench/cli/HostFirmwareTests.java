package snagbench.bench.cli;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The harness against the probe in C in a process of this machine, under the address and undefined-behaviour sanitizers, which
 * end it at the first finding: {@code fixtures/host-reach}. Wants make and gcc.
 */
@Tag("firmware")
@Timeout(value = 120, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class HostFirmwareTests {
    private static final Path FIXTURE = Path.of("../../fixtures/host-reach");
    private static final Duration LONGEST = Duration.ofSeconds(30);

    @TempDir
    Path folder = Path.of("");

    private Optional<String> findPort() throws IOException {
        return Files.readString(folder.resolve("host.out"))
                .lines()
                .filter(line -> line.startsWith("port "))
                .map(line -> line.substring("port ".length()))
                .findFirst();
    }

    @Test
    void scriptsOfTheVirtualShuttlePassInTheTicksOfTheFirmwaresOwnLogAndTheSanitizersFindNothing() throws Exception {
        assertEquals("", FirmwareFiles.make(FIXTURE, "target/reach-host"));
        FirmwareFiles.copy(folder, "host-reach");
        String plan = FirmwareFiles.plan(
                folder,
                "host-reach",
                "../seedling-shuttle/reach-blocked-midway",
                "../seedling-shuttle/reach-current-too-high",
                "../seedling-shuttle/supply-cut-drawing-back");
        Process process = new ProcessBuilder(
                        FIXTURE.resolve("target/reach-host").toString())
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("host.out").toFile())
                .start();
        try {
            String port = await().atMost(LONGEST)
                    .until(this::findPort, Optional::isPresent)
                    .orElseThrow();
            BenchProcess.Ended ended = BenchProcess.run(folder, "run", plan, "--port", port);

            assertEquals(0, ended.status(), ended::all);
            assertTrue(ended.out().contains("3 scripts: 3 pass"), ended::all);
            assertTrue(process.isAlive(), () -> read("host.out"));
            List<List<FirmwareLog.Answer>> programs = FirmwareLog.of(Files.readAllLines(folder.resolve("host.out")))
                    .programs();
            assertEquals(3, programs.size());
            new FirmwareLog(programs.subList(0, 2)).assertSameAsReported(folder);
        } finally {
            process.destroyForcibly();
        }
    }

    private String read(String file) {
        try {
            return Files.readString(folder.resolve(file));
        } catch (IOException e) {
            return e.toString();
        }
    }
}
