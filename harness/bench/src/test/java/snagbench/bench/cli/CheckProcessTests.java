package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.script.schema.SchemaKind;
import snagbench.bench.script.schema.Schemas;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The commands that look at files and move nothing: once by a process as the user starts it, else, quicker, within this one.
 */
class CheckProcessTests {
    private static final String SCRIPT = Bench.PLANS + "reach-blocked-midway.fault.yaml";
    private static final String OTHER = Bench.PLANS + "reach-current-too-high.fault.yaml";

    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    @Test
    void allProblemsOfAllFilesAreToldAsJson() throws IOException {
        bench.spoil(SCRIPT, "reach.current: stuck-at", "reach.curent: stuck-at");
        bench.spoil(SCRIPT, "within: 3 s", "within: 3");
        bench.spoil(OTHER, "step: EASING", "step: EESING");
        bench.spoil(Bench.RIG + "rig.yaml", "lease: 500 ms", "leese: 500 ms");

        Told ended = Told.in(bench.folder(), "check", "--json", Bench.RIG + "rig.yaml", SCRIPT, OTHER);

        assertEquals(2, ended.status(), ended::all);
        JsonNode problems = new JsonMapper().readTree(ended.out()).path("problems");
        assertEquals(1, problems.size(), ended::all);
        assertEquals(
                "did you mean \"lease\"?",
                problems.path(0).path("cure").asString().substring(0, 21),
                ended::all);

        bench.spoil(Bench.RIG + "rig.yaml", "leese: 500 ms", "lease: 500 ms");
        ended = Told.in(bench.folder(), "check", "--json", SCRIPT, "nowhere/none.fault.yaml", OTHER);

        assertEquals(2, ended.status(), ended::all);
        problems = new JsonMapper().readTree(ended.out()).path("problems");
        assertEquals(3, problems.size(), ended::all);
        String text = bench.read(SCRIPT);
        for (int index = 0; index < 2; index++) {
            JsonNode problem = problems.path(index);
            assertEquals(SCRIPT, problem.path("file").asString());
            assertEquals("error", problem.path("severity").asString());
            String line = text.lines().toList().get(problem.path("line").asInt() - 1);
            assertEquals(line, problem.path("source").asString());
            String at = line.substring(problem.path("column").asInt() - 1);
            assertTrue(at.startsWith(index == 0 ? "reach.curent" : "3"), at);
        }
        assertEquals(OTHER, problems.path(2).path("file").asString());
        assertTrue(ended.err().contains("none.fault.yaml"), ended::all);
    }

    @Test
    void aVeryLongLineIsShownAroundItsMark() throws IOException {
        bench.spoil(
                SCRIPT,
                "when: { step: REACHING, reach.position: at least 180 mm }",
                "when: {" + " ".repeat(400) + "step: REACHING, reach.position: at least 180 A }" + " ".repeat(400)
                        + "# end");

        Told ended = Told.in(bench.folder(), "check", SCRIPT);

        assertEquals(2, ended.status(), ended::all);
        java.util.List<String> lines = ended.out().lines().toList();
        int caret = lines.stream()
                .filter(line -> line.strip().equals("^"))
                .findFirst()
                .orElseThrow()
                .indexOf('^');
        assertTrue(lines.get(1).substring(caret).startsWith("180 A"), ended::all);
        assertTrue(lines.stream().allMatch(line -> line.length() < 300), ended::all);
    }

    @Test
    void schemasArePrintedForAnyRigAndForOne() throws IOException {
        Told plain = Told.in(bench.folder(), "schema", "fault-script");
        assertEquals(0, plain.status(), plain::all);
        assertEquals(Schemas.text(SchemaKind.FAULT_SCRIPT), plain.out());

        Told ofRig = Told.in(bench.folder(), "schema", "fault-script", "--rig", "seedling-shuttle");
        assertEquals(0, ofRig.status(), ofRig::all);
        assertTrue(ofRig.out().contains("\"DRAWING_BACK\"") && ofRig.out().contains("\"FS-07\""), ofRig::all);

        Told wrong = Told.in(bench.folder(), "schema", "script");
        assertEquals(2, wrong.status(), wrong::all);
        assertTrue(wrong.err().contains("fault-script, test-plan, rig, failsafes"), wrong::all);
    }

    @Test
    void aScriptIsExplainedUnlessItHasErrors() throws IOException, InterruptedException {
        BenchProcess.Ended good = BenchProcess.run(bench.folder(), "explain", SCRIPT);
        assertEquals(0, good.status(), good::all);
        assertTrue(good.out().contains("FS-02 must answer between 80 ms and 250 ms"), good::all);

        bench.spoil(SCRIPT, "within: 3 s", "within: 3");
        Told bad = Told.in(bench.folder(), "explain", SCRIPT);
        assertEquals(2, bad.status(), bad::all);
        assertTrue(bad.out().isEmpty() && bad.err().contains("has no unit"), bad::all);
        assertTrue(Files.notExists(bench.file("results")));
    }
}
