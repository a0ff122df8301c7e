package snagbench.bench.cli;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The harness against compiled firmware of a Cortex-M3 in an emulator, over a serial line: {@code fixtures/cortex-reach}. Wants
 * make, gcc-arm-none-eabi, qemu-system-arm.
 */
@Tag("firmware")
@Timeout(value = 300, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class CortexFirmwareTests {
    private static final Path FIXTURE = Path.of("../../fixtures/cortex-reach");
    private static final Pattern PORT = Pattern.compile("redirected to (\\S+)");
    private static final Duration LONGEST = Duration.ofSeconds(30);

    @TempDir
    Path folder = Path.of("");

    private Optional<Process> emulator = Optional.empty();

    @BeforeEach
    void startTheEmulator() throws IOException, InterruptedException {
        String built = FirmwareFiles.make(FIXTURE, "target/reach-m3.elf");
        assertEquals("", built);
        FirmwareFiles.copy(folder, "cortex-reach");
        emulator = Optional.of(new ProcessBuilder(
                        "make", "-s", "-C", FIXTURE.toString(), "run", "LOG=file:" + folder.resolve("own.log"))
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("emulator.out").toFile())
                .start());
    }

    /** The emulator is a child of make, which does not take it along when it is ended by force. */
    @AfterEach
    void endTheEmulator() {
        emulator.ifPresent(process -> {
            process.descendants().forEach(ProcessHandle::destroyForcibly);
            process.destroyForcibly();
        });
    }

    private String port() {
        return await().atMost(LONGEST)
                .until(this::findPort, Optional::isPresent)
                .orElseThrow();
    }

    private Optional<String> findPort() throws IOException {
        Matcher found = PORT.matcher(Files.readString(folder.resolve("emulator.out"), StandardCharsets.ISO_8859_1));
        return found.find() ? Optional.of(found.group(1)) : Optional.empty();
    }

    private FirmwareLog ownLog() throws IOException {
        return FirmwareLog.of(Files.readAllLines(folder.resolve("own.log")));
    }

    @Test
    void aScriptOfTheVirtualShuttlePassesInTheTickInWhichTheFirmwaresOwnLogSaysThatItAnswered() throws Exception {
        String plan = FirmwareFiles.plan(folder, "cortex-reach", "../seedling-shuttle/reach-blocked-midway");
        BenchProcess.Ended ended = BenchProcess.run(folder, "run", plan, "--port", port());
        assertEquals(0, ended.status(), ended::all);
        assertTrue(ended.out().contains(": 1 pass"), ended::all);
        ownLog().assertSameAsReported(folder);
    }

    @Test
    void comesUpStillAndStaysStillAfterItsSupplyWasCut() throws Exception {
        String plan = FirmwareFiles.plan(folder, "cortex-reach", "../seedling-shuttle/supply-cut-drawing-back");
        BenchProcess.Ended ended = BenchProcess.run(folder, "run", plan, "--port", port());
        assertEquals(0, ended.status(), ended::all);
        assertTrue(ended.out().contains(": 1 pass"), ended::all);
    }

    @Test
    void aLoopThatHangsEndsInTheWatchdogAndIsSeenAsARestart() throws Exception {
        FirmwareFiles.writeHangs(folder, "cortex-reach");
        BenchProcess.Ended ended =
                BenchProcess.run(folder, "run", FirmwareFiles.plan(folder, "cortex-reach", "hangs"), "--port", port());
        assertTrue(ended.status() == 1 || ended.status() == 4, ended::all);
        assertTrue(ended.out().contains("watchdog"), ended::all);
    }

    @Test
    @Tag("long")
    void allReachScriptsPassOnTheFirmware() throws Exception {
        BenchProcess.Ended ended =
                BenchProcess.run(folder, "run", "test-plans/cortex-reach/reach.plan.yaml", "--port", port());
        assertEquals(0, ended.status(), ended::all);
        assertTrue(ended.out().contains("8 scripts: 8 pass"), ended::all);
    }
}
