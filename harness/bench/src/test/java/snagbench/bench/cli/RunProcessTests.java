package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.Journal;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Whole runs by the real command line: the two plans of the example, and a report made again. First light is run by a
 * process as the user starts it, the others, quicker, within this one.
 */
class RunProcessTests {
    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    @Test
    void firstLightPassesAndSaysSoInEveryOutput() throws Exception {
        BenchProcess.Ended ended = BenchProcess.run(empty, "run", Bench.PLANS + "first-light.plan.yaml");

        assertEquals(0, ended.status(), ended::all);
        assertEquals("", ended.err(), "nothing but results off a terminal");
        List<String> lines = ended.out().lines().toList();
        RunRecord run = RunRecord.read(bench.run().resolve(Journal.FILE_NAME));
        assertEquals(Bench.SCRIPTS.size(), run.results().size());
        for (ScriptResult result : run.results()) {
            assertEquals(Verdict.PASS, result.judgement().verdict(), result.script());
            assertEquals(
                    1,
                    lines.stream()
                            .filter(line -> line.startsWith("pass ") && line.contains(result.script()))
                            .count(),
                    () -> "one line for " + result.script() + " in\n" + ended.out());
        }
        assertTrue(ended.out().contains("8 scripts: 8 pass"), ended::all);
        String named = lines.get(lines.size() - 2);
        assertTrue(named.startsWith("Results: results/"), named);
        String page = lines.get(lines.size() - 1).substring("Report:  ".length());
        assertTrue(Files.readString(empty.resolve(page)).contains("first light"), page);
        resultsAgree(empty.resolve(named.substring("Results: ".length())), run);
    }

    private static void resultsAgree(Path file, RunRecord run) {
        JsonNode results = new JsonMapper().readTree(file);
        assertEquals(run.results().size(), results.path("results").size());
        for (int i = 0; i < run.results().size(); i++) {
            ScriptResult in = run.results().get(i);
            JsonNode out = results.path("results").path(i);
            assertEquals(in.script(), out.path("script").asString());
            assertEquals(
                    in.judgement().verdict().name(),
                    out.path("judgement").path("verdict").asString());
            assertEquals(in.rigMicros(), out.path("rigMicros").asLong());
            assertEquals(
                    in.judgement().findings().size(),
                    out.path("judgement").path("findings").size());
        }
        long passed = run.results().stream()
                .filter(one -> one.judgement().verdict() == Verdict.PASS)
                .count();
        assertEquals(passed, results.path("summary").path("pass").asLong());
        assertEquals(
                run.header().planned().size(),
                results.path("summary").path("planned").asInt());
        assertEquals(run.notRun().size(), results.path("notRun").size());
        assertEquals(
                run.header().digest(), results.path("header").path("digest").asString());
    }

    @Test
    void theBrokenPlanFailsAndSaysWhatWasExpectedWhatWasSeenAndByHowMuchItMissed() throws Exception {
        Told ended = Told.in(empty, "run", Bench.PLANS + "first-light-broken.plan.yaml");

        assertEquals(1, ended.status(), ended::all);
        String facts = details(ended.out(), "fail: reach blocked midway");
        assertAll(
                () -> has(facts, "expected : FS-02 answers 80 ms to 250 ms after the injection"),
                () -> has(facts, "but was  : FS-02 silent, step REACHING at +25"),
                () -> has(facts, "expected : step DRAWING_BACK within 300 ms of the injection"),
                () -> has(facts, "reached  : step DRAWING_BACK at +"),
                () -> has(facts, " ms late)"),
                () -> has(facts, "script   : reach-blocked-midway.fault.yaml:23"));
        assertTrue(ended.out().contains("8 scripts: 5 pass, 3 fail"), ended::all);
        RunRecord run = RunRecord.read(bench.run().resolve(Journal.FILE_NAME));
        resultsAgree(bench.run().resolve("results.json"), run);
        for (ScriptResult result : run.results()) {
            boolean isOfFs02 = result.failSafes().contains("FS-02");
            assertEquals(
                    isOfFs02 ? Verdict.FAIL : Verdict.PASS, result.judgement().verdict(), result.script());
        }
    }

    private static String details(String out, String from) {
        int start = out.indexOf("\n" + from);
        assertTrue(start >= 0, () -> from + " in\n" + out);
        int end = out.indexOf("\n\n", start + 1);
        return out.substring(start, end < 0 ? out.length() : end);
    }

    private static void has(String text, String part) {
        assertTrue(text.contains(part), () -> "\"" + part + "\" in:" + text);
    }

    @Test
    void aReportMadeAgainSaysTheSameWithTheSameStatus() throws Exception {
        Told ran = Told.in(empty, "run", Bench.PLANS + "first-light-broken.plan.yaml");
        Path results = bench.run().resolve("results.json");
        String before = Files.readString(results);
        Files.delete(results);

        Told reported = Told.in(empty, "report", empty.relativize(bench.run()).toString());

        assertEquals(ran.status(), reported.status(), reported::all);
        assertEquals(before, Files.readString(results));
        assertEquals(withoutTitle(ran.out()), withoutTitle(reported.out()));
    }

    private static List<String> withoutTitle(String out) {
        return out.lines().skip(1).toList();
    }

    @Test
    void aScriptWithoutAPlanRunsOnTheRigOfItsFolder() throws Exception {
        Told ended = Told.in(
                empty, "run", Bench.PLANS + "reach-current-too-high.fault.yaml", "--seed", "7", "--out", "elsewhere");

        assertEquals(0, ended.status(), ended::all);
        assertFalse(bench.hasResults(), "the results go where --out says");
        assertTrue(ended.out().contains("seed 7"), ended::all);
        assertTrue(ended.out().contains("1 script: 1 pass"), ended::all);
    }
}
