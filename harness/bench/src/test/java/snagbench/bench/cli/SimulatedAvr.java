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

/** The firmware of {@code fixtures/avr-reach}, built and running on a simulated controller, its line on a pseudo-terminal. */
final class SimulatedAvr implements AutoCloseable {
    private static final Path FIXTURE = Path.of("../../fixtures/avr-reach");
    private static final Duration LONGEST = Duration.ofSeconds(30);

    private final Process process;
    private final Path said;
    private final Path log;

    /** One line of the runner's log: what happened, when on the simulation's clock, and its figures. */
    record Happened(String what, long micros, List<Long> figures) {
        static Happened of(String line) {
            List<String> parts = List.of(line.split(" "));
            return new Happened(
                    parts.get(0),
                    Long.parseLong(parts.get(1)),
                    parts.stream().skip(2).map(Long::valueOf).toList());
        }

        boolean isDrive() {
            return what.equals("drive");
        }

        /** Of a drive: from -255 to 255. */
        long duty() {
            return figures.get(0);
        }

        /** Of a drive: where the arm was then, in 0.1 mm. */
        long position() {
            return figures.get(1);
        }
    }

    private SimulatedAvr(Process process, Path said, Path log) {
        this.process = process;
        this.said = said;
        this.log = log;
    }

    /** Starts it in a folder for its logs; part is "2560" or "328p". */
    static SimulatedAvr start(Path folder, String part) throws IOException, InterruptedException {
        assertEquals("", FirmwareFiles.make(FIXTURE, "all"));
        Path said = folder.resolve("avr-" + part + ".out");
        Path log = folder.resolve("avr-" + part + ".log");
        Process process = new ProcessBuilder(
                        FIXTURE.resolve("target/runner").toString(),
                        "atmega" + part,
                        FIXTURE.resolve("target/reach-" + part + ".elf").toString(),
                        "--log",
                        log.toString())
                .redirectErrorStream(true)
                .redirectOutput(said.toFile())
                .start();
        SimulatedAvr avr = new SimulatedAvr(process, said, log);
        await().atMost(LONGEST).until(() -> avr.findPort().isPresent() || !process.isAlive());
        assertTrue(process.isAlive(), Files.readString(said));
        return avr;
    }

    String port() throws IOException {
        return findPort().orElseThrow();
    }

    private Optional<String> findPort() throws IOException {
        return Files.readString(said)
                .lines()
                .filter(line -> line.startsWith("port "))
                .map(line -> line.substring("port ".length()))
                .findFirst();
    }

    /** The simulator works in the dark: its whole lines so far. */
    List<Happened> log() throws IOException {
        String text = Files.exists(log) ? Files.readString(log) : "";
        return text.substring(0, text.lastIndexOf('\n') + 1)
                .lines()
                .map(Happened::of)
                .toList();
    }

    /** What the pins say of answers, without the times. */
    FirmwareLog ownLog() throws IOException {
        return FirmwareLog.of(log().stream()
                .filter(one -> one.figures().size() == 2 && !one.isDrive())
                .map(one -> one.what() + " " + one.figures().get(0) + " "
                        + one.figures().get(1))
                .toList());
    }

    @Override
    public void close() {
        process.destroyForcibly();
    }
}
