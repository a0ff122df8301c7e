package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.evidence.SampleSize;
import snagbench.bench.script.Claim;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Claims as the user makes them, and the page about them, whose figures are those of the program. */
class RepeatsAndClaimsTests {
    private static final String PLAN = Bench.PLANS + "claims.plan.yaml";
    private static final String HEAD = "test-plan: claims\nrig: seedling-shuttle\nrun-time: 30 s\nreserve: 5 s\n";

    @TempDir
    Path empty = Path.of("");

    private static String page() throws IOException {
        return Files.readString(Bench.project().resolve("docs/repeats-and-claims.md"));
    }

    private static String block(String heading) throws IOException {
        Matcher matcher = Pattern.compile(
                        "<!-- " + Pattern.quote(heading) + " -->\n```[a-z]+\n(.*?)```", Pattern.DOTALL)
                .matcher(page());
        assertTrue(matcher.find(), "the page has: " + heading);
        return matcher.group(1);
    }

    @Test
    void theWorkedExampleComesOutAsThePageSays() throws Exception {
        Bench bench = Bench.in(empty);
        bench.write(PLAN, block("worked example: plan"));

        Told told = Told.in(empty, "run", PLAN, "--seed", "1");

        assertEquals(0, told.status(), told::all);
        assertTrue(told.out().contains(block("worked example: what it says")), told::all);
        JsonNode results =
                new JsonMapper().readTree(Files.readString(bench.run().resolve("results.json")));
        JsonNode repeats = results.path("conclusions").path(0).path("repeats");
        assertEquals("MET", repeats.path("claim").path("standing").asString());
        assertEquals(22, repeats.path("passes").asInt());
        assertEquals(0.90063, repeats.path("bound").path("lower").asDouble(), 5e-6);
        assertEquals(22, repeats.path("recovery").path("bound").path("rank").asInt());
        String sheet = Files.readString(bench.run().resolve("report.html"));
        assertTrue(sheet.contains("<td>at least 90.0 % would pass, at 90 % confidence</td>"), sheet.substring(0, 9000));
        assertTrue(
                sheet.contains(" met</span><div>90 % at 90 % confidence</div></td>"), "the claim stands on the page");
        String summary = Files.readString(bench.run().resolve("summary.md"));
        assertTrue(
                summary.contains(" | 22 of 22 | at least 90.0 % would pass, at 90 % confidence | met: 90 % at"),
                summary);

        Told again = Told.in(empty, "report", empty.relativize(bench.run()).toString());
        assertTrue(again.out().contains(block("worked example: what it says")), again::all);
    }

    @Test
    void theTableOfRunsIsWhatTheProgramWorksOut() throws Exception {
        String table = page().substring(page().indexOf("<!-- table of runs -->"));
        List<String> rows =
                table.lines().filter(line -> line.matches("\\| [0-9]+ % .*")).toList();
        assertEquals(7, rows.size());
        for (String row : rows) {
            double[] figures = Arrays.stream(row.replaceAll("[|%]", " ").trim().split("\\s+"))
                    .mapToDouble(Double::parseDouble)
                    .toArray();
            for (int failures = 0; failures <= 2; failures++) {
                Claim claim = new Claim(figures[0] / 100, figures[1] / 100, failures);
                assertEquals((int) figures[2 + failures], SampleSize.runsFor(claim), row);
            }
        }
    }

    @Test
    void aClaimOutOfReachStopsItsScriptAndSaysSoOnce() throws Exception {
        Bench bench = Bench.in(empty);
        String script = bench.read(Bench.PLANS + "reach-blocked-midway.fault.yaml");
        bench.write(
                Bench.PLANS + "tight.fault.yaml",
                script.replace("within: 3 s\n    after", "within: 1180 ms\n    after")
                        .replace("reach blocked", "tight"));
        bench.write(
                PLAN,
                HEAD + "scripts:\n  - tight.fault.yaml: { claim: { reliability: 90 %, confidence: 90 % } }\n"
                        + "  - reach-stopped-short-in-the-rack-zone.fault.yaml\n");

        Told told = Told.in(empty, "run", PLAN, "--seed", "1");

        assertEquals(1, told.status(), told::all);
        List<String> lines = told.out().lines().toList();
        assertEquals(1, lines.stream().filter(line -> line.startsWith("none  ")).count(), told::all);
        assertTrue(told.out().contains("tight midway (5 to 22 of 22), FS-02"), told::all);
        assertEquals(
                1,
                lines.stream()
                        .filter(line -> line.startsWith("  not run: claim cannot be met any more"))
                        .count(),
                told::all);
        assertTrue(told.out().contains("inconsistent: it both passes and fails"), told::all);
        assertTrue(told.out().contains("23 scripts: 4 pass, 1 fail, 18 not run"), told::all);
        String sheet = Files.readString(bench.run().resolve("report.html"));
        assertTrue(
                sheet.contains("3 of 4 (22 were planned) <strong>inconsistent: it both passed and failed</strong>"),
                "the page shows that it is inconsistent");
        assertTrue(
                sheet.contains(" out of reach</span><div>90 % at 90 % confidence</div></td>"), "the page says so too");
    }

    @Test
    void aClaimOverMomentsCountsAllRunsOfItsFile() throws Exception {
        Bench bench = Bench.in(empty);
        String script = bench.read(Bench.PLANS + "reach-blocked-midway.fault.yaml");
        bench.write(
                Bench.PLANS + "varied.fault.yaml",
                script.replace("at least 180 mm", "at least $at")
                        .replace("\nfailsafe:", "\nvary: { at: 60 mm .. 220 mm in 4 }\nfailsafe:"));
        bench.write(PLAN, HEAD + "claim: { reliability: 50 %, confidence: 95 % }\nscripts:\n  - varied.fault.yaml\n");

        Told told = Told.in(empty, "run", PLAN);

        assertEquals(0, told.status(), told::all);
        // 5 runs would do; 4 moments twice are 8.
        assertTrue(told.out().contains("worst of 8: 8 pass"), told::all);
        assertTrue(told.out().contains("claim met: 50 % reliability at 95 % confidence (8 of 8 passed)"), told::all);
    }

    @Test
    void whatRepeatsCannotShowIsFoundBeforeAnythingMoves() throws Exception {
        Bench bench = Bench.in(empty);
        bench.write(
                PLAN,
                HEAD + "between: { start-only-if: { batery.voltage: at least 12.2 V } }\nscripts:\n"
                        + "  - reach-blocked-midway.fault.yaml: { repeat: 5, claim: { reliability: 90 %, confidence: 90 % } }\n"
                        + "  - grip-not-there-yet.fault.yaml: { claim: { reliability: 99.99 %, confidence: 99 % } }\n");

        Told told = Told.in(empty, "check", PLAN);

        assertEquals(2, told.status(), told::all);
        assertTrue(
                told.out()
                        .contains(
                                "claims.plan.yaml:7:5: a claim of 90 % reliability at 90 % confidence takes 22 runs without a"
                                        + " failure, and 5 are planned"),
                told::all);
        assertTrue(told.out().contains("takes 46050 runs without a failure, and a plan makes 10000"), told::all);
        assertTrue(told.out().contains("the rig has no channel \"batery.voltage\""), told::all);
        assertTrue(told.out().contains("did you mean \"battery.voltage\"?"), told::all);
        assertTrue(told.out().contains("3 errors"), told::all);
        List<String> lines = told.out().lines().toList();
        for (String file : List.of("reach-blocked-midway.fault.yaml", "grip-not-there-yet.fault.yaml")) {
            int shown = IntStream.range(0, lines.size())
                    .filter(i -> lines.get(i).startsWith("      - " + file))
                    .findFirst()
                    .orElseThrow(() -> new AssertionError("no line of " + file + "\n" + told.all()));
            assertTrue(lines.get(shown - 1).contains(": a claim of "), told::all);
            assertEquals("        ^", lines.get(shown + 1), "the mark stands under the name");
        }

        Told ran = Told.in(empty, "run", PLAN);
        assertEquals(2, ran.status(), ran::all);
        assertFalse(bench.hasResults());
    }

    @Test
    void aStartConditionTakesPlainComparisonsOnly() throws Exception {
        Bench bench = Bench.in(empty);
        for (String wrong : List.of(
                "{ battery.voltage: moves less than 1 V in 10 ticks }",
                "{ failsafe: FS-02 }",
                "{ battery.voltage: rises to 12 V }",
                "{}",
                "{ battery.voltage.told: at least 12.2 V }",
                "{ battery.voltage: at least 12.2 mm }")) {
            bench.write(
                    PLAN,
                    HEAD + "between: { start-only-if: " + wrong + " }\nscripts:\n  - grip-not-there-yet.fault.yaml\n");
            Told told = Told.in(empty, "check", PLAN);
            assertEquals(2, told.status(), () -> wrong + ": " + told.all());
            assertTrue(told.out().contains("claims.plan.yaml:5:"), () -> wrong + ": " + told.all());
        }
    }

    @Test
    void aRigThatIsNotAsThePlanWantsEndsItWithStatus4() throws Exception {
        Bench bench = Bench.in(empty);
        bench.write(
                PLAN,
                HEAD
                        + "between: { rest: 20 s, start-only-if: { battery.voltage: at least 14 V }, give-up-after: 2 s }\n"
                        + "scripts:\n  - grip-not-there-yet.fault.yaml\n");

        Told told = Told.in(empty, "run", PLAN);

        assertEquals(4, told.status(), told::all);
        assertTrue(
                told.out().contains("The run went no further: the plan starts only if battery.voltage at least 14"),
                told::all);
        assertTrue(told.out().contains("not run: "), told::all);
    }
}
