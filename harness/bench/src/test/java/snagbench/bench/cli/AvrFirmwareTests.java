package snagbench.bench.cli;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The harness against compiled firmware of 8-bit controllers, over a serial line. Controllers and arm are simulated in real
 * time; what the motor did is told by the simulator from the controller's pins. Wants make, gcc, avr-gcc, avr-libc, libsimavr.
 */
@Tag("firmware")
@Timeout(value = 300, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class AvrFirmwareTests {
    private static final Duration LONGEST = Duration.ofSeconds(60);
    private static final long LEASE_MICROS = 500_000;
    private static final long TICK_MICROS = 5_000;

    /** The simulator passes bytes on once in so long. */
    private static final long QUANTUM_MICROS = 1_000;

    /** The watchdog's 60 ms, whose oscillator the simulator takes as exact, from the last tick that served it. */
    private static final long WATCHDOG_MICROS = 60_000 + TICK_MICROS + QUANTUM_MICROS;

    @TempDir
    Path folder = Path.of("");

    @BeforeEach
    void copyFiles() throws IOException {
        FirmwareFiles.copy(folder, "avr-reach");
    }

    private String plan(String... scripts) throws IOException {
        return FirmwareFiles.plan(folder, "avr-reach", scripts);
    }

    private BenchProcess.Ended run(SimulatedAvr avr, String plan) throws IOException, InterruptedException {
        return BenchProcess.run(folder, "run", plan, "--port", avr.port());
    }

    @ParameterizedTest
    @ValueSource(strings = {"2560", "328p"})
    void aScriptOfTheVirtualShuttlePassesInTheTickInWhichThePinsSayThatTheFirmwareAnswered(String part)
            throws Exception {
        try (SimulatedAvr avr = SimulatedAvr.start(folder, part)) {
            BenchProcess.Ended ended = run(avr, plan("../seedling-shuttle/reach-blocked-midway"));
            assertEquals(0, ended.status(), ended::all);
            assertTrue(ended.out().contains(": 1 pass"), ended::all);
            avr.ownLog().assertSameAsReported(folder);
        }
    }

    /** The same file passes on the virtual shuttle, whose reach arm this is. */
    @Test
    void comesUpStillAndStaysStillAfterItsSupplyWasCutJustAsTheVirtualOne() throws Exception {
        FirmwareFiles.copy(folder, "seedling-shuttle");
        String virtual = FirmwareFiles.plan(folder, "seedling-shuttle", "supply-cut-drawing-back");
        BenchProcess.Ended told = BenchProcess.run(folder, "run", virtual);
        assertEquals(0, told.status(), told::all);
        assertTrue(told.out().contains(": 1 pass"), told::all);
        try (SimulatedAvr avr = SimulatedAvr.start(folder, "328p")) {
            BenchProcess.Ended ended = run(avr, plan("../seedling-shuttle/supply-cut-drawing-back"));
            assertEquals(0, ended.status(), ended::all);
            assertTrue(ended.out().contains(": 1 pass"), ended::all);
            List<SimulatedAvr.Happened> log = avr.log();
            long restart = log.stream()
                    .filter(one -> one.what().equals("restart"))
                    .mapToLong(SimulatedAvr.Happened::micros)
                    .findFirst()
                    .orElseThrow();
            assertTrue(
                    log.stream()
                            .filter(one -> one.isDrive() && one.micros() >= restart)
                            .allMatch(one -> one.duty() == 0),
                    log::toString);
            assertTrue(
                    log.stream().anyMatch(one -> one.isDrive() && one.micros() < restart && one.duty() < 0),
                    "it was drawing back");
        }
    }

    /** The stored description is of the larger part's firmware, which has it. */
    @Test
    void whatTheSmallPartsBuildHasLeftOutIsToldByNameAndNothingMoves() throws Exception {
        Path script = folder.resolve("test-plans/seedling-shuttle/reach-blocked-midway.fault.yaml");
        String text = Files.readString(script);
        String held = text.replace("    until: { failsafe: FS-02 }", "    for: 20 ms\n    until: { failsafe: FS-02 }");
        assertFalse(held.equals(text));
        Files.writeString(script, held);
        try (SimulatedAvr avr = SimulatedAvr.start(folder, "328p")) {
            BenchProcess.Ended ended = run(avr, plan("../seedling-shuttle/reach-blocked-midway"));
            assertEquals(4, ended.status(), ended::all);
            assertTrue(ended.out().contains("cannot do \"timings (for, delay"), ended::all);
            assertEquals(0, avr.ownLog().programs().size());
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"2560", "328p"})
    @Tag("long")
    void allReachScriptsPassOnTheFirmware(String part) throws Exception {
        try (SimulatedAvr avr = SimulatedAvr.start(folder, part)) {
            BenchProcess.Ended ended = run(avr, "test-plans/avr-reach/reach.plan.yaml");
            assertEquals(0, ended.status(), ended::all);
            assertTrue(ended.out().contains("8 scripts: 8 pass"), ended::all);
            assertEquals(8, avr.ownLog().programs().size());
        }
    }

    @Test
    void aHarnessThatIsKilledLeavesAMotorThatStopsWithinTheLease() throws Exception {
        try (SimulatedAvr avr = SimulatedAvr.start(folder, "2560");
                BenchProcess process = BenchProcess.start(
                        folder,
                        "run",
                        plan("../seedling-shuttle/reach-stopped-short-in-the-rack-zone"),
                        "--port",
                        avr.port())) {
            await().atMost(LONGEST)
                    .pollInterval(Duration.ofMillis(5))
                    .until(() -> !process.isAlive() || drivesFully(avr.log()));
            process.signal("KILL");
            assertEquals(128 + 9, process.ended().status());
            await().atMost(LONGEST).until(() -> lastDrive(avr.log()).duty() == 0);

            List<SimulatedAvr.Happened> log = avr.log();
            long heard = log.stream()
                    .filter(one -> one.what().equals("heard"))
                    .mapToLong(SimulatedAvr.Happened::micros)
                    .max()
                    .orElseThrow();
            SimulatedAvr.Happened off = lastDrive(log);
            assertTrue(off.micros() <= heard + LEASE_MICROS + 2 * TICK_MICROS + QUANTUM_MICROS, log::toString);
            assertTrue(off.position() < 3300, () -> "it stopped by itself, at the rack: " + off);
        }
    }

    private static boolean drivesFully(List<SimulatedAvr.Happened> log) {
        return log.stream().anyMatch(one -> one.isDrive() && one.duty() == 204);
    }

    private static SimulatedAvr.Happened lastDrive(List<SimulatedAvr.Happened> log) {
        return log.stream()
                .filter(SimulatedAvr.Happened::isDrive)
                .reduce((one, next) -> next)
                .orElseThrow();
    }

    @Test
    void aLoopThatHangsEndsInTheWatchdogWithTheMotorOffAndIsSeenAsARestart() throws Exception {
        FirmwareFiles.writeHangs(folder, "avr-reach");
        try (SimulatedAvr avr = SimulatedAvr.start(folder, "2560")) {
            BenchProcess.Ended ended = run(avr, plan("hangs"));

            assertTrue(ended.status() == 1 || ended.status() == 4, ended::all);
            assertTrue(ended.out().contains("watchdog"), ended::all);
            List<SimulatedAvr.Happened> log = avr.log();
            SimulatedAvr.Happened restart = log.stream()
                    .filter(one -> one.what().equals("restart"))
                    .findFirst()
                    .orElseThrow();
            long past = log.stream()
                    .filter(one -> one.isDrive() && one.position() >= 1000)
                    .mapToLong(SimulatedAvr.Happened::micros)
                    .findFirst()
                    .orElse(restart.micros());
            assertTrue(restart.micros() - past <= WATCHDOG_MICROS, log::toString);
            assertTrue(
                    log.stream()
                            .filter(one -> one.isDrive() && one.micros() >= restart.micros())
                            .limit(1)
                            .allMatch(one -> one.duty() == 0),
                    log::toString);
            BenchProcess.Ended asked =
                    BenchProcess.run(folder, "identify", "--rig", "avr-reach", "--port", avr.port(), "--for", "0");
            assertTrue(asked.out().contains("started by  watchdog"), asked::all);
        }
    }

    @Test
    void aGuardOnRealReadingsTripsWhileTheControlCodeIsToldThatTheArmStands() throws Exception {
        Path rig = folder.resolve("fixtures/avr-reach/rig.yaml");
        String text = Files.readString(rig);
        String narrow = text.replace("-4 mm .. 405 mm", "-4 mm .. 250 mm");
        assertFalse(narrow.equals(text));
        Files.writeString(rig, narrow);
        Files.writeString(folder.resolve("test-plans/avr-reach/lies.fault.yaml"), """
                fault-script: the encoder stands while the arm goes on
                failsafe: FS-02
                why: a test's own
                needs: [motion]
                begin:
                  - send: start-run
                  - wait-for: { step: REACHING }
                    within: 2 s
                inject:
                  - name: lies
                    when: { step: REACHING, reach.position: at least 230 mm }
                    channels:
                      reach.position: freeze
                    lasts: 2 s
                expect:
                  - must-not-fire: FS-01
                end: 1 s after lies
                """);
        try (SimulatedAvr avr = SimulatedAvr.start(folder, "328p")) {
            BenchProcess.Ended ended = run(avr, plan("lies"));

            assertTrue(ended.out().contains("reach travel"), ended::all);
            assertTrue(ended.status() != 0, ended::all);
            List<SimulatedAvr.Happened> log = avr.log();
            SimulatedAvr.Happened off = log.stream()
                    .filter(one -> one.isDrive() && one.duty() == 0 && one.position() > 2300)
                    .findFirst()
                    .orElseThrow();
            assertTrue(off.position() <= 2500 + 100, () -> "stopped late: " + off);
        }
    }
}
