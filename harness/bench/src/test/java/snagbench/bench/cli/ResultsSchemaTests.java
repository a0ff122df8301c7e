package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.report.ResultsJson;
import snagbench.bench.report.sheet.SheetRuns;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The schema of results.json is what the command prints, real results keep to it, and spoilt ones do not. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ResultsSchemaTests {
    private final Schema schema = schema();

    private static Schema schema() {
        Told told = Told.by("schema", "results");
        assertEquals(0, told.status(), told::all);
        return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(new JsonMapper().readTree(told.out()));
    }

    private List<String> problems(JsonNode results) {
        return schema.validate(results).stream().map(String::valueOf).toList();
    }

    @Test
    void itIsADraft202012SchemaAndTheSameForEveryRig() throws IOException {
        JsonNode schema = new JsonMapper().readTree(Told.by("schema", "results").out());

        assertEquals(
                "https://json-schema.org/draft/2020-12/schema",
                schema.path("$schema").asString(""));
        Told withRig = Told.by("schema", "results", "--rig", "seedling-shuttle");
        assertEquals(2, withRig.status(), withRig::all);
        assertTrue(withRig.err().contains("leave out --rig"), withRig::all);
    }

    @Test
    void resultsOfARealRunThatFailedKeepToItAndSpoiltOnesDoNot(@TempDir Path empty) throws IOException {
        Bench bench = Bench.in(empty);
        String plan = Bench.PLANS + "small.plan.yaml";
        bench.write(plan, """
                test-plan: small
                rig: seedling-shuttle
                build: without-FS-02
                run-time: 30 s
                reserve: 5 s
                scripts:
                  - reach-blocked-midway.fault.yaml
                  - caught-far-out.fault.yaml
                """);
        Told ran = Told.by(
                "run",
                bench.file(plan).toString(),
                "--out",
                bench.file("results").toString());
        assertEquals(1, ran.status(), ran::all);
        String text = Files.readString(bench.run().resolve("results.json"));
        ObjectNode results = (ObjectNode) new JsonMapper().readTree(text);

        assertEquals(List.of(), problems(results));
        assertFalse(results.path("traceability").path("rows").isEmpty(), "with the register");
        int refused = 0;
        for (String member : List.copyOf(results.propertyNames())) {
            ObjectNode spoilt = results.deepCopy();
            spoilt.put(member, "spoilt");
            assertFalse(problems(spoilt).isEmpty(), member + " may be anything");
            refused++;
        }
        assertTrue(refused >= 8, "members were tried: " + refused);
        ObjectNode first = (ObjectNode) results.path("results").path(0);
        for (String member : List.copyOf(first.propertyNames())) {
            JsonNode was = first.path(member).deepCopy();
            first.set(member, new ArrayNode(new JsonMapper().getNodeFactory()).add(1.5));
            assertFalse(problems(results).isEmpty(), "results[0]." + member + " may be anything");
            first.set(member, was);
        }
        assertEquals(List.of(), problems(results));
    }

    @Test
    void whateverResultsHoldTheSchemaDescribesAndTheOtherWayRound(
            @TempDir Path one, @TempDir Path two, @TempDir Path three) throws IOException {
        DescribedMembers described = new DescribedMembers(
                new JsonMapper().readTree(Told.by("schema", "results").out()));
        JsonNode sound = run(Bench.in(one), 0, """
                test-plan: with everything that a run can have
                rig: seedling-shuttle
                run-time: 30 s
                reserve: 5 s
                between: { rest: 1 s }
                control-runs: { no-fault: true, inhibited: true }
                adequacy: { failsafes: true, constants: true }
                scripts:
                  - reach-blocked-midway.fault.yaml: { claim: { reliability: 80 %, confidence: 90 % } }
                  - reach-blocked-anywhere.fault.yaml
                  - current-spike-too-short.fault.yaml
                  - supply-cut.fault.yaml
                """);
        Bench late = Bench.in(two);
        // Some of its runs recover so soon, others do not.
        late.spoil(
                Bench.PLANS + "reach-blocked-midway.fault.yaml",
                "within: 3 s\n    after",
                "within: 1180 ms\n    after");
        JsonNode failing = run(late, 1, """
                test-plan: with failures
                rig: seedling-shuttle
                run-time: 30 s
                reserve: 5 s
                scripts:
                  - reach-blocked-midway.fault.yaml: { claim: { reliability: 90 %, confidence: 90 % } }
                  - caught-far-out.fault.yaml
                """);
        // Where nothing passes, no trace tells what the constants are as built.
        JsonNode nothingPassed = run(Bench.in(three), 1, """
                test-plan: nothing passes
                rig: seedling-shuttle
                build: without-FS-02
                run-time: 30 s
                reserve: 5 s
                adequacy: { constants: true }
                scripts: [reach-blocked-midway.fault.yaml]
                """);

        for (JsonNode results : List.of(sound, failing, nothingPassed)) {
            assertEquals(List.of(), problems(results));
            assertEquals(List.of(), described.missingOf(results), "the schema does not describe");
        }
        assertEquals(List.of(), described.notSeen(), "described, and in no result here");
    }

    private static JsonNode run(Bench bench, int status, String plan) throws IOException {
        String file = bench.write(Bench.PLANS + "schema.plan.yaml", plan).toString();
        Told ran = Told.by(
                "run", file, "--seed", "1", "--out", bench.file("results").toString());
        assertEquals(status, ran.status(), ran::all);
        return new JsonMapper().readTree(Files.readString(bench.run().resolve("results.json")));
    }

    @Test
    void resultsWithHostileNamesKeepToItAndSayTheNames(@TempDir Path folder) throws IOException {
        for (String hostile : SheetRuns.HOSTILE) {
            SheetRuns.register(hostile).write(folder);
            String text = Files.readString(ResultsJson.write(SheetRuns.run(hostile), folder));
            JsonNode results = new JsonMapper().readTree(text);

            assertEquals(List.of(), problems(results), hostile);
            // Half of a letter is no text that UTF-8 could carry.
            if (hostile.chars().noneMatch(unit -> Character.isSurrogate((char) unit))) {
                assertEquals(
                        hostile,
                        results.path("traceability")
                                .path("rows")
                                .path(0)
                                .path("failSafe")
                                .asString(""));
            }
        }
    }
}
