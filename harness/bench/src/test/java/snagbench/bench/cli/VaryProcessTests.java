package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.Journal;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A script that varies its moment, by the real command line: one row on the screen, each single run in the journal. */
class VaryProcessTests {
    private static final String SCRIPT = Bench.PLANS + "reach-blocked-somewhere.fault.yaml";

    @TempDir
    Path empty = Path.of("");

    @Test
    void isOneRowWithItsWorstCaseAndEachRunIsInTheJournalAndIsJudgedAgain() throws Exception {
        Bench bench = Bench.in(empty);
        String text = bench.read(Bench.PLANS + "reach-blocked-midway.fault.yaml");
        bench.write(
                SCRIPT,
                text.replace("at least 180 mm", "at least $at")
                        .replace("\nfailsafe:", "\nvary: { at: 60 mm .. 220 mm by 80 mm }\nfailsafe:"));

        Told ran = Told.in(empty, "run", SCRIPT);

        assertEquals(0, ran.status(), ran::all);
        List<String> lines = ran.out().lines().toList();
        assertTrue(lines.get(2).endsWith("reach blocked midway, FS-02, told, worst of 3: 3 pass"), lines.get(2));
        assertTrue(lines.get(3).startsWith("  at 60 mm   pass "), lines.get(3));
        assertTrue(lines.get(5).startsWith("  at 220 mm  pass "), lines.get(5));
        assertTrue(lines.get(5).contains("|====="), lines.get(5));
        RunRecord run = RunRecord.read(bench.run().resolve(Journal.FILE_NAME));
        assertEquals(3, run.results().size());
        ScriptResult last = run.results().get(2);
        assertEquals(
                new ScriptResult.Variation("at 220 mm", 3, 3), last.variant().orElseThrow());
        assertEquals(Verdict.PASS, last.judgement().verdict());
        JsonNode families =
                new JsonMapper().readTree(bench.run().resolve("results.json")).path("families");
        assertEquals(1, families.size());
        assertEquals(3, families.path(0).path("runs").asInt());
        assertEquals("pass", families.path(0).path("verdict").asString());

        String trace = empty.relativize(bench.run().resolve(last.trace().orElseThrow()))
                .toString();
        Told judged = Told.in(empty, "judge", trace, SCRIPT);

        assertEquals(0, judged.status(), judged::all);
        assertTrue(judged.out().contains("reach blocked midway, at 220 mm, FS-02, told"), judged::all);
    }
}
