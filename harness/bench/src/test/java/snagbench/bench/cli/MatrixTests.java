package snagbench.bench.cli;

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
import snagbench.bench.report.register.DecisionSheet;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The register beside a run: who proves what, what nobody tried, and what the reserve can bear. */
class MatrixTests {
    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    private Told run() throws IOException {
        return run("reach-stopped-short-in-the-rack-zone");
    }

    private Told run(String script) throws IOException {
        return Told.by(
                "run",
                bench.file(bench.plan(script, 2)).toString(),
                "--out",
                bench.file("results").toString());
    }

    private Told matrix() throws IOException {
        return Told.by("report", bench.run().toString(), "--matrix");
    }

    @Test
    void aPlanEndsWithAWarningAndStillPasses() throws IOException {
        Told told = run();

        assertEquals(0, told.status(), told::all);
        assertTrue(told.out().contains("warning: 12 fail-safes of which no script was run; "), told::all);
        assertTrue(told.out().contains(" combinations of step, channel and fault never tried"), told::all);
    }

    @Test
    void theMatrixTellsVerdictEvidenceAndWhatWasNotRun() throws IOException {
        run();

        Told told = matrix();

        assertEquals(0, told.status(), told::all);
        assertTrue(
                told.out()
                        .contains("  pass          told              "
                                + "reach-stopped-short-in-the-rack-zone.fault.yaml, worst of 2"),
                told::all);
        assertTrue(told.out().contains("  not run                         rack-empty.fault.yaml"), told::all);
        assertTrue(told.out().contains("  REACHING, base.position (FS-07): none tried at all"), told::all);
    }

    @Test
    void theReserveTellsWhatFits() throws IOException {
        run("grip-not-there-yet");

        Told told = matrix();

        assertTrue(
                told.out().contains("FS-03: 3.3 s (measured in 2 runs against nominal runs of the same seeds, "),
                told::all);
        assertTrue(told.out().contains("; the register says 2.80 s .. 3.30 s)"), told::all);
        assertTrue(
                told.out().contains("FS-07: 4.0 s (as the register says, against nominal runs; not measured"),
                told::all);
        assertTrue(told.out().contains("One recovery: 9 of 9 fit: FS-01 once 0.8 s, "), told::all);
        assertTrue(told.out().contains("  FS-03 twice: 6.5 s, does not fit"), told::all);
        assertTrue(told.out().contains("FS-10: one pot (not in the table)"), told::all);
    }

    @Test
    void theResultsHaveMatrixAndReserveForOtherPrograms() throws IOException {
        run("grip-not-there-yet");

        JsonNode results =
                JsonMapper.shared().readTree(Files.readString(bench.run().resolve("results.json")));

        JsonNode rows = results.at("/traceability/rows");
        List<JsonNode> proven = rows.valueStream()
                .filter(row -> row.at("/script").asString().equals("grip-not-there-yet.fault.yaml"))
                .toList();
        assertEquals(1, proven.size(), rows::toPrettyString);
        assertEquals("FS-03", proven.get(0).at("/failSafe").asString());
        assertEquals(2, proven.get(0).at("/runs").asInt());
        assertEquals("PASS", proven.get(0).at("/verdict").asString());
        assertEquals(12, results.at("/traceability/withoutResult").size());
        JsonNode reserve = results.at("/reserve");
        assertEquals(5_000_000, reserve.at("/reserveMicros").asLong());
        // Nine that cost time: 9 alone, 45 pairs and 165 threes, of which one may come again.
        assertEquals(9 + 45 + 165, reserve.at("/combinations").size());
        JsonNode twice = reserve.at("/combinations")
                .valueStream()
                .filter(one -> one.at("/failSafes").toString().equals("[\"FS-03\",\"FS-03\"]"))
                .findFirst()
                .orElseThrow();
        assertFalse(twice.at("/fits").asBoolean());
        JsonNode cost = reserve.at("/costs")
                .valueStream()
                .filter(one -> one.at("/failSafe").asString().equals("FS-03"))
                .findFirst()
                .orElseThrow();
        assertEquals("MEASURED", cost.at("/basis").asString());
        assertEquals(2 * cost.at("/micros").asLong(), twice.at("/micros").asLong());
    }

    @Test
    void aNominalTraceOfTheUsersOwnIsTheMeasureInstead() throws IOException {
        run("grip-not-there-yet");
        String nominal = bench.run().resolve("nominal/seed-1.trace").toString();

        Told told = Told.by("report", bench.run().toString(), "--matrix", "--nominal", nominal);

        assertTrue(told.out().contains("FS-03: 3.3 s (measured in 2 runs against " + nominal + ", "), told::all);
        assertEquals(
                2,
                Told.by("report", bench.run().toString(), "--matrix", "--nominal", "no.trace")
                        .status());
    }

    @Test
    void aTraceThatIsNoNominalRunMeasuresNothingAndTakesNothingAway() throws IOException {
        run("grip-not-there-yet");
        Path register = bench.run().resolve("register.json");
        String before = Files.readString(register);
        String trace =
                bench.run().resolve("traces/0001-grip-not-there-yet.trace").toString();

        Told told = Told.by("report", bench.run().toString(), "--matrix", "--nominal", trace);

        assertEquals(2, told.status(), told::all);
        assertTrue(
                told.err().matches("(?s).*: no nominal run: FS-03 answered at [0-9]+\\.[0-9] ms after arming; .*"),
                told::all);
        assertEquals(before, Files.readString(register));
        assertTrue(before.contains("\"micros\""), "something had been measured");
    }

    @Test
    void whereNothingCanBeMeasuredWhatWasMeasuredBeforeStays() throws IOException {
        run("current-spike-too-short");
        Path register = bench.run().resolve("register.json");
        String measured =
                "\"measured\" : [ { \"failSafe\" : \"FS-03\", \"script\" : \"x\", \"seed\" : 1, \"micros\" : 5,"
                        + " \"at\" : \"OUT\", \"against\" : \"y\" } ]";
        String before = Files.readString(register).replaceFirst("\"measured\" : \\[ *\\]", measured);
        assertTrue(before.contains(measured), before);
        Files.writeString(register, before);
        String nominal = bench.run().resolve("nominal/seed-1.trace").toString();

        Told told = Told.by("report", bench.run().toString(), "--matrix", "--nominal", nominal);

        assertEquals(0, told.status(), told::all);
        assertTrue(told.err().contains("warning: nothing was measured against " + nominal), told::all);
        assertEquals(before, Files.readString(register));
    }

    @Test
    void aNominalTraceWithoutTheMatrixIsRefused() throws IOException {
        run("current-spike-too-short");

        Told told = Told.by("report", bench.run().toString(), "--nominal", "nosuch.trace");

        assertEquals(2, told.status(), told::all);
        assertTrue(told.err().contains("--nominal goes with --matrix"), told::all);
    }

    @Test
    void theDecisionTableIsLaidAgainstTheRunsTraces() throws IOException {
        run();

        Told told = Told.by("report", bench.run().toString(), "--decision-table");

        assertEquals(0, told.status(), told::all);
        assertTrue(told.out().contains("  decided by the register's \"order\": FS-07 before FS-01, "), told::all);
        assertTrue(
                told.out()
                        .contains("Laid against 4 traces: 2 answers, of which 0 without the symptom; 2 times a symptom"
                                + " was there for its time, of which 2 were answered, 0 by none"),
                told::all);
        assertTrue(
                told.out().contains("  nominal runs go through these too: FS-01, but for reach.current; "), told::all);
        DecisionSheet sheet = DecisionSheet.read(bench.run()).orElseThrow();
        assertEquals(4, sheet.check().traces());
        assertEquals(sheet.table().holes().size(), sheet.check().holes().size());
        assertEquals(List.of(), sheet.table().undecided(), () -> sheet.table()
                .undecided()
                .toString());
        String page = Files.readString(bench.run().resolve("report.html"));
        assertTrue(page.contains(">Laid against 4 traces</h3>"), "the page has the table");
        assertTrue(
                page.contains("Of what two claim, the register&#39;s order says in each case which of them answers."),
                "and what it says");
        assertTrue(page.contains("<summary>Decided by the register&#39;s order: 25</summary>"), "and its overlaps");
        assertTrue(
                page.contains("<bdi>FS-03</bdi></th><td class=\"figure\">2</td><td class=\"figure\">0</td>"
                        + "<td class=\"figure\">0</td><td class=\"figure\">2</td><td class=\"figure\">2</td>"),
                "and what the traces say");
    }

    @Test
    void aDecisionTableThatIsNoneIsToldAndCanBeMadeAgain() throws IOException {
        run();
        assertTrue(
                Files.readString(bench.run().resolve("report.html")).contains("snagbench report RUN --decision-table"),
                "the page of the run says how to make it");
        Files.writeString(
                bench.run().resolve(DecisionSheet.FILE_NAME),
                "{\"table\":{\"overlaps\":[{\"failSafes\":[],\"first\":null,\"regions\":[]}],\"holes\":[],\"leftOut\":[]}}");

        Told told = Told.by("report", bench.run().toString());

        assertEquals(2, told.status(), told::all);
        assertTrue(told.all().contains("decision-table.json is not what a report writes there: "), told::all);
        assertTrue(told.all().contains("\"report --decision-table\" makes it again"), told::all);
        assertEquals(
                0, Told.by("report", bench.run().toString(), "--decision-table").status());
    }

    @Test
    void theTableOfARegisterNeedsNoRun() {
        Told told = Told.by("explain", bench.file(Bench.RIG + "failsafes.yaml").toString());

        assertEquals(0, told.status(), told::all);
        assertTrue(
                told.out().contains("Symptoms that two fail-safes claim, with different responses: 25 pairs"),
                told::all);
        assertTrue(told.out().contains("  FS-02 and FS-03, but for reach.position"), told::all);
        assertEquals(
                2, Told.by("explain", bench.file("failsafes.yaml").toString()).status());
    }

    @Test
    void aScriptThatTheRegisterDoesNotNameIsTold() throws IOException {
        bench.spoil(Bench.RIG + "failsafes.yaml", "      - reach-stopped-short-in-the-rack-zone\n", "");

        Told told = run();

        assertTrue(told.out().contains("1 script about which the register and it do not agree"), told::all);
        assertTrue(
                matrix().out()
                        .contains("reach-stopped-short-in-the-rack-zone.fault.yaml says it is evidence for FS-03, and"
                                + " the register does not name it there"),
                told::all);
    }

    @Test
    void aBrokenRegisterStopsAPlanBeforeAnythingMoves() throws IOException {
        bench.spoil(Bench.RIG + "failsafes.yaml", "      - rack-empty\n", "      - rack-emty\n");

        Told told = run();

        assertEquals(2, told.status(), told::all);
        assertTrue(told.all().contains("failsafes.yaml"), told::all);
        assertTrue(told.all().contains("did you mean \"rack-empty.fault.yaml\"?"), told::all);
        assertFalse(Files.exists(bench.file("results")), told::all);
    }
}
