package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.judge.Finding;
import snagbench.bench.run.Journal;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;

/** As much or as little as the user wants to be told; and what the shell completes. */
class TalkTests {
    private static final String BROKEN = Bench.PLANS + "first-light-broken.plan.yaml";

    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    @Test
    void quietTellsWhatDidNotPassAndTheSumAndNothingElse() {
        Told usual = Told.in(empty, "run", BROKEN, "--out", "usual");
        Told quiet = Told.in(empty, "run", BROKEN, "--out", "quiet", "--quiet");

        assertEquals(1, quiet.status(), quiet::all);
        assertEquals("", quiet.err());
        String failures = usual.out().substring(usual.out().indexOf("\nfail: ") + 1);
        String expected = failures.substring(0, failures.indexOf("on the rig's clock\n")) + "on the rig's clock\n";
        assertEquals(expected, quiet.out());
    }

    @Test
    void quietAboutARunThatPassesIsOneLine() {
        Told quiet = Told.in(empty, "run", Bench.PLANS + "reach-current-too-high.fault.yaml", "-q");

        assertEquals(0, quiet.status(), quiet::all);
        assertEquals(1, quiet.out().lines().count(), quiet::all);
        assertTrue(quiet.out().startsWith("1 script: 1 pass; "), quiet::all);
        assertTrue(Files.exists(empty.resolve("results")), "all of it is in the report");
    }

    @Test
    void verboseTellsEachExpectationWithItsMargin() throws Exception {
        Told verbose = Told.in(empty, "run", BROKEN, "--verbose");

        assertEquals(1, verbose.status(), verbose::all);
        RunRecord run = RunRecord.read(bench.run().resolve(Journal.FILE_NAME));
        List<String> lines = verbose.out().lines().toList();
        int row = 2;
        for (ScriptResult result : run.results()) {
            assertTrue(lines.get(row).contains(result.script()), lines.get(row));
            for (Finding finding : result.judgement().findings()) {
                String line = lines.get(++row);
                assertTrue(line.startsWith("  " + finding.verdict().word() + " "), line);
                assertTrue(line.endsWith("  " + finding.name()), line);
                assertEquals(
                        finding.marginMicros().isPresent()
                                && finding.marginMicros().getAsLong() < 0,
                        line.matches(".* -\\d+\\.\\d ms.*"),
                        line);
            }
            row++;
        }
        assertTrue(lines.stream().anyMatch(line -> line.matches("  pass +\\+\\d+\\.\\d ms .*")), verbose::all);

        Told reported = Told.in(empty, "report", empty.relativize(bench.run()).toString(), "-v");
        assertEquals(
                lines.stream().skip(1).toList(), reported.out().lines().skip(1).toList(), "as it was told in the run");
    }

    @Test
    void bothAtOnceAreRefused() {
        Told both = Told.in(empty, "run", BROKEN, "-q", "-v");

        assertEquals(2, both.status(), both::all);
        assertEquals("snagbench: --quiet or --verbose, not both\n", both.err());
        assertFalse(Files.exists(empty.resolve("results")));
    }

    /** In a real bash. */
    @Test
    void theShellCompletesCommandsAndOptions() throws Exception {
        Told script = Told.in(empty, "completion");
        assertEquals(0, script.status(), script::all);
        Files.writeString(empty.resolve("completion"), script.out());

        assertEquals(List.of("record", "report"), completed("harness/snagbench", "re"));
        assertEquals(List.of("--release-latch"), completed("snagbench", "run", "--rel"));
        assertTrue(
                completed("snagbench", "run", "--").containsAll(List.of("--port", "--quiet", "--verbose", "--motion")));
        assertTrue(completed("snagbench", "").containsAll(List.of("run", "check", "serve", "completion")));
    }

    private List<String> completed(String... words) throws Exception {
        List<String> command = new ArrayList<>(List.of("bash", "--norc", "-c", """
            source ./completion
            complete -p snagbench > /dev/null || exit 9
            COMP_WORDS=("$@") COMP_CWORD=$(($# - 1)) COMP_LINE="$*"
            COMP_POINT=${#COMP_LINE}
            # Known to the shell only while it completes.
            compopt() { :; }
            _complete_snagbench
            printf '%s\\n' "${COMPREPLY[@]}"
            """, "bash"));
        command.addAll(List.of(words));
        Process bash = new ProcessBuilder(command)
                .directory(empty.toFile())
                .redirectErrorStream(true)
                .start();
        String said = new String(bash.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertTrue(bash.waitFor(60, TimeUnit.SECONDS) && bash.exitValue() == 0, said);
        return said.lines().map(String::strip).sorted().toList();
    }
}
