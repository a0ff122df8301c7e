package snagbench.bench.link;

import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fazecast.jSerialComm.SerialPort;
import com.sun.jna.Native;
import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.awaitility.Awaitility;
import org.hamcrest.Matcher;
import org.jspecify.annotations.NullMarked;

/** Another process that runs {@link SerialMain}. */
final class ChildJvm implements AutoCloseable {
    private static final long LONGEST_SECONDS = 60;

    private final Process process;
    private final BufferedReader said;

    private ChildJvm(Process process) {
        this.process = process;
        this.said = process.inputReader(StandardCharsets.UTF_8);
    }

    static ChildJvm start(String... arguments) throws IOException {
        return start(List.of(), classPath(), Path.of(System.getProperty("java.io.tmpdir")), arguments);
    }

    /**
     * Starts one.
     *
     * @param before words that start it, before java's own
     * @param temporary its folder for temporary files
     */
    static ChildJvm start(List<String> before, List<Path> classPath, Path temporary, String... arguments)
            throws IOException {
        List<String> words = new ArrayList<>(before);
        words.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        words.addAll(List.of("-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1", "-Xmx64m"));
        if (Runtime.version().feature() >= 22) {
            words.add("--enable-native-access=ALL-UNNAMED");
        }
        words.add("-Djava.io.tmpdir=" + temporary);
        words.add("-Djna.tmpdir=" + temporary);
        words.add("-XX:ErrorFile=" + temporary.resolve("crash-%p.log"));
        words.addAll(List.of(
                "-cp",
                classPath.stream().map(Path::toString).collect(Collectors.joining(File.pathSeparator)),
                SerialMain.class.getName()));
        words.addAll(List.of(arguments));
        return new ChildJvm(new ProcessBuilder(words).redirectErrorStream(true).start());
    }

    /** Folders and jars that it needs. */
    static List<Path> classPath() {
        return Stream.of(
                        SerialLink.class,
                        SerialMain.class,
                        SerialPort.class,
                        Native.class,
                        NullMarked.class,
                        Awaitility.class,
                        Matcher.class,
                        org.junit.jupiter.api.Assertions.class,
                        org.opentest4j.AssertionFailedError.class,
                        org.junit.platform.commons.JUnitException.class)
                .map(ChildJvm::place)
                .distinct()
                .toList();
    }

    private static Path place(Class<?> one) {
        try {
            return Path.of(
                    one.getProtectionDomain().getCodeSource().getLocation().toURI());
        } catch (URISyntaxException e) {
            throw new AssertionError(e);
        }
    }

    /** Copies the class path to where every user may read it. */
    static List<Path> readableCopies(Path folder) throws IOException {
        List<Path> copies = new ArrayList<>();
        for (Path place : classPath()) {
            Path copy = folder.resolve("part-" + copies.size());
            try (Stream<Path> all = Files.walk(place)) {
                for (Path each : all.toList()) {
                    Path to = copy.resolve(place.relativize(each).toString()).normalize();
                    Files.copy(each, to);
                    assertTrue(to.toFile().setReadable(true, false));
                    assertTrue(!Files.isDirectory(to) || to.toFile().setExecutable(true, false));
                }
            }
            copies.add(copy);
        }
        return copies;
    }

    long pid() {
        return process.pid();
    }

    /** Its next line; "null" once it has ended. */
    String line() throws IOException {
        return String.valueOf(said.readLine());
    }

    void signal(String name) throws Exception {
        Process kill = new ProcessBuilder("kill", "-s", name, Long.toString(pid()))
                .inheritIO()
                .start();
        assertTrue(kill.waitFor(LONGEST_SECONDS, TimeUnit.SECONDS) && kill.exitValue() == 0, "kill");
    }

    void endOfInput() throws IOException {
        process.getOutputStream().close();
    }

    /** Waits for its end; 128 and the signal's number if a signal ended it. */
    int exitStatus() throws Exception {
        assertTrue(process.waitFor(LONGEST_SECONDS, TimeUnit.SECONDS), "still running after " + LONGEST_SECONDS + " s");
        return process.exitValue();
    }

    @Override
    public void close() {
        process.destroyForcibly();
    }
}
