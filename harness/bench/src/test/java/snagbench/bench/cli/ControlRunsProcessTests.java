package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.Adequacy;
import snagbench.bench.run.ChangeResult;
import snagbench.bench.run.Conclusion;
import snagbench.bench.run.Conclusions;
import snagbench.bench.run.ControlCheck;
import snagbench.bench.run.Journal;
import snagbench.bench.run.RunRecord;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Control runs and adequacy by the command line: what is told, what is kept, and what the status is. */
class ControlRunsProcessTests {
    @TempDir
    Path empty = Path.of("");

    @Test
    void aScriptThatProvesNothingEndsInconclusiveAndReportShowsItAgain() throws Exception {
        Bench bench = Bench.in(empty);
        String script = Bench.PLANS + "says-little.fault.yaml";
        bench.write(script, """
                fault-script: says little
                failsafe: FS-02
                begin:
                  - send: start-run
                  - wait-for: { step: REACHING }
                    within: 2 s
                inject:
                  - when: { step: REACHING, reach.position: at least 120 mm }
                    channels: { reach.position: freeze, reach.current: stuck-at 4.2 A }
                    until: { failsafe: FS-02 }
                    lasts: 900 ms
                expect:
                  - always: { battery.voltage: above 7 V }
                    within: 0 ms .. 900 ms
                    after: injection 1
                end: 1 s after injection 1
                """);

        Told plain = Told.in(empty, "run", script, "--out", "plain");
        assertEquals(0, plain.status(), plain::all);

        Told ran = Told.in(empty, "run", script, "--control-runs");
        assertEquals(3, ran.status(), ran::all);
        assertTrue(ran.out().lines().toList().get(2).startsWith("inconclusive "), ran::all);
        assertTrue(ran.out().contains("passes with FS-02 inhibited: it proves nothing"), ran::all);
        assertTrue(ran.out().contains("2 control runs: 1 holds, 1 falls short; "), ran::all);

        JsonNode results = new JsonMapper().readTree(bench.run().resolve("results.json"));
        assertEquals("inconclusive", results.path("summary").path("worst").asString());
        assertEquals(2, results.path("controls").size());
        JsonNode conclusion = results.path("conclusions").path(0);
        assertEquals("INCONCLUSIVE", conclusion.path("verdict").asString());
        assertEquals(
                "FALLS_SHORT", conclusion.path("controls").path(1).path("state").asString());

        Told shown = Told.in(empty, "report", empty.relativize(bench.run()).toString());
        assertEquals(3, shown.status(), shown::all);
        assertTrue(shown.out().contains("passes with FS-02 inhibited: it proves nothing"), shown::all);
    }

    @Test
    void aPlanAsksForThemByItself() throws Exception {
        Bench bench = Bench.in(empty);
        String plan = bench.plan("reach-blocked-midway", 2);
        bench.write(
                plan,
                bench.read(plan)
                        .replace(
                                "scripts:",
                                "control-runs: { inhibited: true }\nadequacy: { failsafes: true }\nscripts:"));

        Told ran = Told.in(empty, "run", plan);

        assertEquals(0, ran.status(), ran::all);
        assertTrue(ran.out().contains("1 control run: 1 holds; "), ran::all);
        assertTrue(ran.out().contains("not noticed: without FS-08"), ran::all);
        assertTrue(
                ran.out().contains("adequacy: the plan notices 1 of 13 (7 %) fail-safes that are left out; "),
                ran::all);
        RunRecord run = RunRecord.read(bench.run().resolve(Journal.FILE_NAME));
        assertEquals(13, run.changes().size());
        assertEquals(1, run.controls().size());
        JsonNode results = new JsonMapper().readTree(bench.run().resolve("results.json"));
        assertEquals(12, results.path("adequacy").path("unnoticed").size());
    }

    /** What the page says of the shuttle's own plan. */
    @Test
    @Tag("long")
    void theNightlyPlanOfTheShuttleMissesEveryFailSafeThatIsLeftOut() throws Exception {
        Bench bench = Bench.in(empty);

        Told ran = Told.in(empty, "run", Bench.PLANS + "nightly.plan.yaml", "--control-runs", "--adequacy");

        assertEquals(0, ran.status(), ran::all);
        RunRecord run = RunRecord.read(bench.run().resolve(Journal.FILE_NAME));
        List<Conclusion> rows = Conclusions.of(run).rows();
        assertTrue(rows.stream().allMatch(row -> row.verdict() == Verdict.PASS), rows::toString);
        assertTrue(
                rows.stream()
                        .flatMap(row -> row.controls().stream())
                        .allMatch(one -> one.state() == ControlCheck.State.HOLDS),
                rows::toString);
        Adequacy adequacy = Adequacy.of(run.changes());
        assertEquals(13, adequacy.failSafes());
        assertEquals(13, adequacy.failSafesNoticed());
        assertEquals(24, adequacy.constants());
        String page = Files.readString(Bench.project().resolve("docs/control-runs.md"));
        assertTrue(
                page.contains(adequacy.constantsNoticed() + " of 24 small changes of constants are noticed"),
                () -> "noticed: " + adequacy.constantsNoticed());
        for (ChangeResult one : adequacy.unnoticed()) {
            assertTrue(page.contains(one.words()), one.words());
        }
        assertEquals(adequacy.unnoticed().size(), page.split(" -> ", -1).length - 1, "listed as unnoticed");
        assertTrue(
                page.contains("(" + run.results().size() + " scripts with their variants"),
                () -> "scripts: " + run.results().size());
        assertTrue(
                page.contains(run.controls().size() + " control runs, which all hold"),
                () -> "control runs: " + run.controls().size());
    }
}
