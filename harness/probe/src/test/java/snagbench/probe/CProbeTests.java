package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The probe in C of {@code firmware-notes/probe-c}, built for this machine, against this one and against the wire page. Wants
 * make, gcc, clang with its runtime for sanitizers, and avr-gcc.
 */
@Tag("firmware")
class CProbeTests {
    private static final Path C_PROBE = Path.of("../../firmware-notes/probe-c");
    private static final long FIRST_SEED = 20_261_125;

    @TempDir
    Path folder;

    @Test
    void saysBitForBitWhatThisProbeSays() throws IOException, InterruptedException {
        compare("target/crosscheck", 400);
    }

    @Test
    @Tag("long")
    void saysInTenThousandSessionsWhatThisProbeSays() throws IOException, InterruptedException {
        compare("target/crosscheck-fast", 10_000);
    }

    @Test
    void keepsToTheWirePageAndTheTableOfFaultValues() throws IOException, InterruptedException {
        String said = make("quick");
        assertTrue(said.contains(" 0 failed"), said);
    }

    @Test
    void takesNoMoreOfASmallPartThanThePageSays() throws IOException, InterruptedException {
        assertEquals(
                "3 sizes, 0 beyond the page", make("sizes-check", "EACH=no").strip());
    }

    @Test
    @Tag("long")
    void takesNoMoreForAnyFeatureThanThePageSays() throws IOException, InterruptedException {
        String said = make("sizes-check");
        assertTrue(said.contains(" sizes, 0 beyond the page"), said);
    }

    @Test
    void bytesAndCallsAtRandomBreakNothing() throws IOException, InterruptedException {
        String said = make("fuzz", "SECONDS=3");
        assertTrue(said.contains("stat::number_of_executed_units"), said);
    }

    @Test
    @Tag("long")
    void buildsWithoutAWarningWithAnyFeatureLeftOut() throws IOException, InterruptedException {
        String said = make("check");
        assertTrue(said.contains("features switched off, and with all"), said);
    }

    private void compare(String program, int cases) throws IOException, InterruptedException {
        make(program);
        CrossCheckFiles.write(folder, FIRST_SEED, cases);
        Path inputs = folder.resolve("inputs.txt");
        Path answers = folder.resolve("answers.txt");
        Path found = folder.resolve("found.txt");
        String said = run(List.of("./" + program), inputs.toFile(), found.toFile());
        assertEquals("", said);
        try (BufferedReader wanted = Files.newBufferedReader(answers, StandardCharsets.US_ASCII);
                BufferedReader was = Files.newBufferedReader(found, StandardCharsets.US_ASCII)) {
            String inCase = "";
            int line = 0;
            for (String next = wanted.readLine(); next != null; next = wanted.readLine()) {
                line++;
                inCase = next.startsWith("case ") ? next : inCase;
                assertEquals(next, was.readLine(), "line " + line + ", " + inCase);
            }
            assertEquals(null, was.readLine());
        }
    }

    private static String make(String... what) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of("make", "-s"));
        command.addAll(List.of(what));
        return run(command, null, null);
    }

    /** Runs a program in the folder of the C probe; gives what it said, without what went into a file. */
    private static String run(List<String> command, @Nullable File in, @Nullable File out)
            throws IOException, InterruptedException {
        ProcessBuilder builder = new ProcessBuilder(new ArrayList<>(command)).directory(C_PROBE.toFile());
        if (in != null) {
            builder.redirectInput(in);
        }
        if (out == null) {
            builder.redirectErrorStream(true);
        } else {
            builder.redirectOutput(out);
        }
        Process process = builder.start();
        byte[] said = (out == null ? process.getInputStream() : process.getErrorStream()).readAllBytes();
        int status = process.waitFor();
        String text = new String(said, StandardCharsets.UTF_8);
        assertEquals(0, status, () -> command + " said:\n" + text);
        return text;
    }
}
