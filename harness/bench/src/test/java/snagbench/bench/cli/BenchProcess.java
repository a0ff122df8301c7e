package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;

/**
 * The command line as the user starts it: a process of its own, with its own Java. Ended by force at the end of the test
 * if it is still there.
 */
final class BenchProcess implements AutoCloseable {
    /** Far longer than any run here takes, so that a busy machine fails no test. */
    private static final int LONGEST_SECONDS = 180;

    /** As the launcher does. */
    private static final int WARNS_OF_NATIVE_ACCESS = 22;

    private final Process process;
    private final Path out;
    private final Path err;

    private BenchProcess(Process process, Path out, Path err) {
        this.process = process;
        this.out = out;
        this.err = err;
    }

    /** What came of it. */
    record Ended(int status, String out, String err) {
        /** Both outputs, for messages of failed assertions. */
        String all() {
            return "status " + status + "\n--- out\n" + out + "--- err\n" + err;
        }
    }

    static BenchProcess start(Path folder, String... args) throws IOException {
        return start(folder, List.of(), args);
    }

    /** As on a terminal at which nobody types anything. */
    static BenchProcess startAndAnswerNothing(Path folder, String... args) throws IOException {
        return start(folder, List.of("-Dsnagbench.terminals=2"), List.of(), ProcessBuilder.Redirect.PIPE, args);
    }

    /** With folders in front of the class path, such as one with a virtual rig of the user's. */
    static BenchProcess start(Path folder, List<Path> classPath, String... args) throws IOException {
        return start(
                folder,
                List.of(),
                classPath,
                ProcessBuilder.Redirect.from(
                        Files.createTempFile("snagbench-test-", ".in").toFile()),
                args);
    }

    private static BenchProcess start(
            Path folder, List<String> options, List<Path> classPath, ProcessBuilder.Redirect in, String... args)
            throws IOException {
        List<String> command = new ArrayList<>();
        if (System.getProperty("os.name", "").toLowerCase(Locale.ROOT).contains("linux")) {
            // Whoever runs the tests in the background may have Ctrl-C ignored, which would be inherited.
            command.addAll(List.of("env", "--default-signal=INT,HUP"));
        }
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        if (Runtime.version().feature() >= WARNS_OF_NATIVE_ACCESS) {
            command.add("--enable-native-access=ALL-UNNAMED");
        }
        command.addAll(options);
        command.addAll(List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Dfile.encoding=UTF-8", "-cp"));
        List<String> path =
                new ArrayList<>(classPath.stream().map(Path::toString).toList());
        path.add(System.getProperty("java.class.path"));
        command.add(String.join(File.pathSeparator, path));
        command.add(Main.class.getName());
        command.addAll(List.of(args));
        Path out = Files.createTempFile("snagbench-test-", ".out");
        Path err = Files.createTempFile("snagbench-test-", ".err");
        Process process = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectInput(in)
                .redirectOutput(out.toFile())
                .redirectError(err.toFile())
                .start();
        return new BenchProcess(process, out, err);
    }

    static Ended run(Path folder, String... args) throws IOException, InterruptedException {
        try (BenchProcess process = start(folder, args)) {
            return process.ended();
        }
    }

    Ended ended() throws IOException, InterruptedException {
        assertTrue(
                process.waitFor(LONGEST_SECONDS, TimeUnit.SECONDS),
                () -> "not ended in " + LONGEST_SECONDS + " s: " + process.info());
        return new Ended(process.exitValue(), text(out), text(err));
    }

    private static String text(Path file) throws IOException {
        return Files.readString(file, StandardCharsets.UTF_8);
    }

    String outSoFar() throws IOException {
        return text(out);
    }

    String errSoFar() throws IOException {
        return text(err);
    }

    boolean isAlive() {
        return process.isAlive();
    }

    long pid() {
        return process.pid();
    }

    /** As Ctrl-C, {@code kill} or {@code kill -9} do. */
    void signal(String name) throws IOException, InterruptedException {
        Process kill = new ProcessBuilder("kill", "-" + name, Long.toString(process.pid())).start();
        assertTrue(kill.waitFor(LONGEST_SECONDS, TimeUnit.SECONDS), "kill does not come back");
    }

    @Override
    public void close() throws IOException {
        process.destroyForcibly();
        Files.deleteIfExists(out);
        Files.deleteIfExists(err);
    }
}
