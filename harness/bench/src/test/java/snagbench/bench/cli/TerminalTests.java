package snagbench.bench.cli;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.serve.PseudoTerminal;

/**
 * What is shown where: on a real pseudo-terminal colours and a line of progress, in a pipe neither; and the launcher tells the
 * command line which is which.
 */
class TerminalTests {
    private static final Duration LONGEST = Duration.ofMinutes(2);
    private static final String ESCAPE = "\u001b[";

    @TempDir
    Path empty = Path.of("");

    @BeforeEach
    void copyFiles() throws IOException {
        Bench.in(empty);
    }

    /** What the launcher does behind its build: it is read as it is, and its own function tells where the outputs lead. */
    private List<String> asLaunched(String... args) {
        String launcher = Bench.project().resolve("harness/snagbench").toString();
        List<String> command = new ArrayList<>(List.of(
                "bash",
                "-c",
                ". \"$1\"; { terminals=$(terminal_options); } 3>&1; exec \"$2\" -XX:TieredStopAtLevel=1"
                        + " -XX:+UseSerialGC $terminals -cp \"$3\" snagbench.bench.cli.Main \"${@:4}\"",
                "bash",
                launcher,
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                System.getProperty("java.class.path")));
        command.addAll(List.of(args));
        return command;
    }

    private ProcessBuilder process(Map<String, String> environment, String... args) {
        ProcessBuilder builder = new ProcessBuilder(asLaunched(args)).directory(empty.toFile());
        for (String name : List.of("NO_COLOR", "CI", "JAVA_TOOL_OPTIONS")) {
            builder.environment().remove(name);
        }
        builder.environment().put("TERM", "xterm");
        builder.environment().putAll(environment);
        return builder;
    }

    /** All that came to a pseudo-terminal to which both outputs led. */
    private String onATerminal(Map<String, String> environment, String... args) throws Exception {
        ByteArrayOutputStream shown = new ByteArrayOutputStream();
        byte[] chunk = new byte[4096];
        try (PseudoTerminal terminal = PseudoTerminal.open(38_400);
                RandomAccessFile held = new RandomAccessFile(terminal.port().toFile(), "rw")) {
            Process process = process(environment, args)
                    .redirectOutput(terminal.port().toFile())
                    .redirectError(terminal.port().toFile())
                    .start();
            try {
                await().atMost(LONGEST).pollInterval(Duration.ofMillis(5)).until(() -> {
                    boolean over = !process.isAlive();
                    int bytes;
                    while ((bytes = terminal.read(chunk)) > 0) {
                        shown.write(chunk, 0, bytes);
                    }
                    return over;
                });
            } finally {
                process.destroyForcibly();
            }
            assertTrue(held.getChannel().isOpen(), "what was written last waits to be read");
        }
        return shown.toString(StandardCharsets.UTF_8);
    }

    private String inAPipe(Map<String, String> environment, String... args) throws Exception {
        Process process = process(environment, args).redirectErrorStream(true).start();
        String shown = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertTrue(process.waitFor(LONGEST.toSeconds(), TimeUnit.SECONDS));
        return shown;
    }

    /** As it stands there in the end: what was written over is gone. */
    private static List<String> inTheEnd(String shown) {
        return Arrays.stream(shown.split("\n"))
                .map(line -> line.substring(line.lastIndexOf('\r') + 1))
                .map(line -> line.replaceAll("\u001b\\[[0-9;]*m", ""))
                .toList();
    }

    @Test
    void aTerminalShowsColoursAndProgressAndInTheEndTheLinesThatAPipeGets() throws Exception {
        String[] args = {"run", Bench.PLANS + "first-light-broken.plan.yaml", "--out", "one"};
        String shown = onATerminal(Map.of(), args);
        args[3] = "two";
        String piped = inAPipe(Map.of(), args);

        assertTrue(shown.contains(ESCAPE + "32mpass" + ESCAPE + "0m  "), shown);
        assertTrue(shown.contains(ESCAPE + "1;31mfail" + ESCAPE + "0m  "), shown);
        assertTrue(
                shown.contains("8 scripts: " + ESCAPE + "32m5 pass" + ESCAPE + "0m, " + ESCAPE + "1;31m3 fail"), shown);
        assertTrue(shown.contains("\r1 of 8  reach blocked midway  "), shown);
        assertFalse(piped.contains("\u001b") || piped.contains("\r"), piped);
        List<String> plain =
                piped.lines().map(line -> line.replace("two/", "one/")).toList();
        assertEquals(String.join("\n", withoutStamp(plain)), String.join("\n", withoutStamp(inTheEnd(shown))));
    }

    private static List<String> withoutStamp(List<String> lines) {
        return lines.stream()
                .map(line -> line.replaceAll("T\\d\\d-\\d\\d-\\d\\d", ""))
                .toList();
    }

    /** The bytes of a name with a letter beyond ASCII, which Java cannot take where the locale has none. */
    private String withAForeignName(Map<String, String> locale, String launcher) throws Exception {
        List<String> command = new ArrayList<>(asLaunched("check"));
        command.set(
                2,
                command.get(2).replace("exec ", launcher).replace("\"${@:4}\"", "check $'gr\\xc3\\xbcn.fault.yaml'"));
        ProcessBuilder builder =
                new ProcessBuilder(command).directory(empty.toFile()).redirectErrorStream(true);
        List.of("LC_ALL", "LC_CTYPE", "LANG", "JAVA_TOOL_OPTIONS").forEach(builder.environment()::remove);
        builder.environment().putAll(locale);
        Process process = builder.start();
        String shown = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertTrue(process.waitFor(LONGEST.toSeconds(), TimeUnit.SECONDS));
        return shown + "status " + process.exitValue();
    }

    @Test
    void aNameThatTheLocaleLacksIsRefusedWithWhatWouldDo() throws Exception {
        String shown = withAForeignName(Map.of("LC_ALL", "C"), "exec ");

        assertTrue(shown.contains("set LC_ALL=C.UTF-8"), shown);
        assertTrue(shown.endsWith("status 2"), shown);
    }

    @ParameterizedTest
    @CsvSource({"LC_ALL, C", "LC_CTYPE, POSIX", "LANG, C", "LANG, ''"})
    void theLauncherSeesToALocaleThatHasAllLetters(String name, String value) throws Exception {
        String shown = withAForeignName(Map.of(name, value), "take_all_letters; exec ");

        assertTrue(shown.contains("there is no file gr\u00fcn.fault.yaml"), shown);
        assertTrue(shown.endsWith("status 2"), shown);
    }

    @ParameterizedTest
    @CsvSource({"NO_COLOR, 1, true", "TERM, dumb, false", "CI, true, false"})
    void whoWantsNoneOfItGetsNone(String name, String value, boolean progress) throws Exception {
        String shown = onATerminal(Map.of(name, value), "run", Bench.PLANS + "reach-current-too-high.fault.yaml");

        assertFalse(shown.contains("\u001b"), shown);
        assertEquals(progress, shown.contains("\r1 of 1  "), shown);
        assertTrue(inTheEnd(shown).stream().anyMatch(line -> line.startsWith("1 script: 1 pass; ")), shown);
    }

    @Test
    void wordsAreColouredAndNothingElseIsChanged() {
        Paint paint = new Paint(true);
        List<String> lines = List.of(
                "pass           45.0 ms     120.0 ms     +23.0 ms   a pass that will fail, FS-01, told",
                "  inconclusive: sees it",
                "error: the rig (x.fault.yaml:1:1, seed 1)",
                "12 scripts: 9 pass, 2 fail, 1 not run; 2.6 s on the rig's clock",
                "    but was  : pass",
                "not run: one",
                "passable");
        List<String> coloured = lines.stream().map(paint::line).toList();

        for (int i = 0; i < lines.size(); i++) {
            assertEquals(lines.get(i), coloured.get(i).replaceAll("\u001b\\[[0-9;]*m", ""));
            assertEquals(lines.get(i), new Paint(false).line(lines.get(i)));
        }
        assertTrue(coloured.get(0).startsWith(ESCAPE + "32mpass" + ESCAPE + "0m "), coloured.get(0));
        assertEquals("  " + ESCAPE + "1;33minconclusive" + ESCAPE + "0m: sees it", coloured.get(1));
        assertTrue(coloured.get(3).contains(", " + ESCAPE + "36m1 not run" + ESCAPE + "0m;"), coloured.get(3));
        assertEquals(lines.get(4), coloured.get(4));
        assertEquals(lines.get(6), coloured.get(6));
    }

    @Test
    void looksFollowTheTerminalAndTheUser() {
        assertEquals(new Looks(true, true, 79), Looks.of(Map.of("TERM", "xterm"), true, true, 80));
        assertEquals(new Looks(true, true, 100), Looks.of(Map.of(), true, true, 0));
        assertEquals(new Looks(true, true, 100), Looks.of(Map.of("NO_COLOR", ""), true, true, 400));
        assertEquals(new Looks(false, true, 100), Looks.of(Map.of(), false, true, 0));
        assertEquals(new Looks(true, false, 100), Looks.of(Map.of(), true, false, 0));
        assertEquals(new Looks(false, true, 100), Looks.of(Map.of("NO_COLOR", "0"), true, true, 0));
        assertEquals(new Looks(false, false, 100), Looks.of(Map.of("CI", "1"), true, true, 0));
    }
}
