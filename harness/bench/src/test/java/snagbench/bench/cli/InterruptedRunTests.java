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
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.run.Journal;
import snagbench.bench.run.RunEnd;
import snagbench.bench.run.RunRecord;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A run that is cut short: by the user, who gets a safe stop, or by force. */
class InterruptedRunTests {
    /** More than any machine does before it is told to stop. */
    private static final int REPEATS = 3000;

    private static final int AT_LEAST = 3;
    private static final Duration LONGEST = Duration.ofMinutes(3);

    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    /** Started, and in the midst of its plan. */
    private BenchProcess underWay() throws IOException {
        BenchProcess process =
                BenchProcess.start(empty, "run", bench.plan("reach-stopped-short-in-the-rack-zone", REPEATS));
        await().atMost(LONGEST)
                .pollInterval(Duration.ofMillis(20))
                .until(() -> !process.isAlive() || lines() > AT_LEAST);
        return process;
    }

    private long lines() throws IOException {
        if (!bench.hasResults()) {
            return 0;
        }
        try (Stream<Path> files = Files.walk(bench.file("results"))) {
            for (Path file : files.toList()) {
                if (file.endsWith(Journal.FILE_NAME)) {
                    return Files.readAllLines(file).size();
                }
            }
        }
        return 0;
    }

    @Test
    void killedItLeavesAJournalOfAllFinishedScriptsFromWhichResultsCanBeMade() throws Exception {
        try (BenchProcess process = underWay()) {
            process.signal("KILL");
            BenchProcess.Ended ended = process.ended();
            assertEquals(128 + 9, ended.status(), ended::all);
            long shown =
                    ended.out().lines().filter(line -> line.startsWith("pass ")).count();
            Path journal = bench.run().resolve(Journal.FILE_NAME);
            assertFalse(Files.exists(bench.run().resolve("results.json")), "killed before it could");

            RunRecord run = RunRecord.read(journal);
            assertTrue(run.end().isEmpty());
            assertEquals(REPEATS, run.header().planned().size());
            assertTrue(run.results().size() >= AT_LEAST, () -> run.results().size() + " results");
            assertTrue(
                    run.results().size() >= shown,
                    () -> "all of the " + shown + " that were shown are among "
                            + run.results().size());
            for (int i = 0; i < run.results().size(); i++) {
                assertEquals(i, run.results().get(i).index(), "none is missing between");
            }
            reportTellsWhatWasNotRun(run);
        }
    }

    private void reportTellsWhatWasNotRun(RunRecord run) throws Exception {
        BenchProcess.Ended reported =
                BenchProcess.run(empty, "report", bench.run().toString());

        int notRun = REPEATS - run.results().size();
        assertEquals(3, reported.status(), reported::all);
        assertTrue(reported.out().contains("cut short"), reported::all);
        assertTrue(reported.out().contains("not run: " + run.notRun().get(0) + "\n"), reported::all);
        assertTrue(reported.out().contains(run.results().size() + " pass, " + notRun + " not run"), reported::all);
        JsonNode results = new JsonMapper().readTree(bench.run().resolve("results.json"));
        assertEquals(run.results().size(), results.path("results").size());
        assertEquals(notRun, results.path("notRun").size());
        assertEquals(notRun, results.path("summary").path("none").asInt());
    }

    @ParameterizedTest
    @CsvSource({"INT, 130", "TERM, 143"})
    void stoppedByTheUserItMakesTheSafeStopAndEndsItsJournal(String signal, int status) throws Exception {
        try (BenchProcess process = underWay()) {
            process.signal(signal);
            BenchProcess.Ended ended = process.ended();

            assertEquals(status, ended.status(), ended::all);
            RunRecord run = RunRecord.read(bench.run().resolve(Journal.FILE_NAME));
            RunEnd end = run.end().orElseThrow();
            assertEquals(RunEnd.Cause.CANCELLED, end.cause());
            assertTrue(end.reason().contains("stopped by the user"), end.reason());
            assertTrue(end.reason().contains("the rig has confirmed its safe stop"), end.reason());
            assertTrue(run.results().size() < REPEATS, "it was cut short");
            assertTrue(ended.out().contains(end.reason()), ended::all);
            assertTrue(ended.out().contains("not run: " + run.notRun().get(0) + "\n"), ended::all);
            int notRun = REPEATS - run.results().size();
            assertTrue(ended.out().contains(notRun + " not run"), ended::all);
            JsonNode results = new JsonMapper().readTree(bench.run().resolve("results.json"));
            assertEquals(notRun, results.path("notRun").size());
            assertEquals("CANCELLED", results.path("end").path("cause").asString());
            reportAgrees(ended);
        }
    }

    @ParameterizedTest
    @CsvSource({"INT, 130", "TERM, 143"})
    void whereNoRigIsConnectedNothingIsWaitedForAndNoSafeStopIsMissed(String signal, int status) throws Exception {
        try (BenchProcess process =
                BenchProcess.startAndAnswerNothing(empty, "new", "my.fault.yaml", "--rig", Bench.RIG)) {
            await().atMost(LONGEST)
                    .pollInterval(Duration.ofMillis(20))
                    .until(() -> !process.isAlive() || process.errSoFar().contains("A number or a name"));
            process.signal(signal);
            BenchProcess.Ended ended = process.ended();

            assertEquals(status, ended.status(), ended::all);
            assertFalse(ended.err().contains("safe stop"), ended::all);
            assertFalse(Files.exists(bench.file("my.fault.yaml")));
        }
    }

    private void reportAgrees(BenchProcess.Ended ended) throws Exception {
        Told reported = Told.by("report", bench.run().toString());

        assertEquals(130, reported.status(), reported::all);
        assertEquals(withoutPaths(ended.out()), withoutPaths(reported.out()));
    }

    /** All but the title, and where things lie: the two are told different paths to the same folder. */
    private static List<String> withoutPaths(String out) {
        return out.lines()
                .filter(line -> !line.startsWith("Results: ") && !line.startsWith("Report: "))
                .map(line -> line.replaceAll("report \\S+ --matrix", "report --matrix"))
                .skip(1)
                .toList();
    }
}
