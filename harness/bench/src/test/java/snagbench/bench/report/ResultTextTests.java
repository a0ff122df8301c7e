package snagbench.bench.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.judge.Fact;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.InjectionFacts;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Reached;
import snagbench.bench.judge.Split;
import snagbench.bench.judge.ValueMargin;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.RunEnd;
import snagbench.bench.run.RunHeader;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.Place;
import snagbench.wire.EntryEnd;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Results as people and programs read them, to the letter. */
class ResultTextTests {
    private static final OptionalLong NO_TIME = OptionalLong.empty();
    private static final Place PLACE = new Place(Path.of("plans", "blocked.fault.yaml"), 1, 1);

    private static Finding finding(String name, Verdict verdict, Fact... facts) {
        return new Finding(name, PLACE, verdict, List.of(facts), NO_TIME, NO_TIME, NO_TIME);
    }

    private static ScriptResult result(Judgement judgement, int repeat, int repeats) {
        return new ScriptResult(
                0,
                "reach blocked",
                PLACE,
                repeat,
                repeats,
                7,
                List.of("FS-01", "FS-02"),
                ScriptResult.Evidence.TOLD,
                judgement,
                2_550_000,
                new ScriptResult.LoopTimes(5100, 5200),
                0,
                Optional.empty(),
                Optional.empty());
    }

    private static Judgement failed() {
        return new Judgement(
                Verdict.FAIL,
                List.of(
                        finding("sees it", Verdict.PASS, new Fact("expected", "FS-02 answers within 250 ms")),
                        finding(
                                "draws back",
                                Verdict.FAIL,
                                new Fact("expected", "step DRAWING_BACK within 250 ms of the injection"),
                                new Fact("but was", "step REACHING at +250.1 ms"),
                                new Fact("reached", "step DRAWING_BACK at +312.0 ms (62.0 ms late)"),
                                new Fact("script", "blocked.fault.yaml:21")),
                        finding("tries again", Verdict.INCONCLUSIVE, new Fact("but was", "not judged"))),
                OptionalLong.of(137_449),
                NO_TIME,
                OptionalLong.of(-62_000),
                List.of(struckTwice()),
                List.of("the battery was low"),
                List.of(
                        new ValueMargin("battery.voltage", 44, 1, -2, "V"),
                        new ValueMargin("reach.current", 1, 1, 0, "A")),
                new Split(
                        Optional.of(new Reached(47, 237_449, 137_449)),
                        Optional.of(new Reached(82, 412_000, 312_000)),
                        Optional.empty()),
                OptionalLong.of(71));
    }

    private static InjectionFacts struckTwice() {
        return new InjectionFacts(
                "injection 1",
                OptionalLong.of(20),
                OptionalLong.of(100_000),
                OptionalLong.of(30),
                OptionalLong.of(50_000),
                Optional.of(EntryEnd.LASTED),
                true,
                2);
    }

    private static Judgement passed(String... reasons) {
        return new Judgement(
                Verdict.PASS,
                List.of(finding("sees it", Verdict.PASS)),
                OptionalLong.of(137_450),
                OptionalLong.of(1_126_150),
                OptionalLong.of(0),
                List.of(),
                List.of(reasons));
    }

    private static RunRecord run(Optional<RunEnd> end, int planned, ScriptResult... results) {
        List<String> titles =
                IntStream.range(0, planned).mapToObj(i -> "script " + i).toList();
        RunHeader header = new RunHeader(
                Instant.parse("2026-03-01T22:15:00Z"),
                "0.1",
                "17",
                "p",
                "p.plan.yaml",
                "r",
                "b",
                false,
                "0x0",
                7,
                titles);
        return new RunRecord(header, List.of(results), end);
    }

    private static Optional<RunEnd> complete() {
        return Optional.of(new RunEnd(RunEnd.Cause.COMPLETE, ""));
    }

    @Test
    void aFailIsToldWithItsFactsAligned() {
        assertEquals("""
                fail: reach blocked (plans/blocked.fault.yaml:1:1, seed 7)
                  the battery was low
                  injection 1: from 100.0 ms after arming for 50.0 ms; ended: its own time was over; struck 2 times
                  detected at +137.4 ms (tick 47), response begun at +312.0 ms (tick 82), recovered -
                  in value: battery.voltage +0.44 V, reach.current +1 A
                  settled by tick 71: nothing behind it could mend it
                  fail: draws back
                    expected : step DRAWING_BACK within 250 ms of the injection
                    but was  : step REACHING at +250.1 ms
                    reached  : step DRAWING_BACK at +312.0 ms (62.0 ms late)
                    script   : blocked.fault.yaml:21
                  inconclusive: tries again
                    but was : not judged
                """, String.join("\n", ResultText.details(result(failed(), 1, 1))) + "\n");
    }

    @Test
    void aPlainPassHasNoDetailsAndOneWithReasonsANoteForEach() {
        assertEquals(List.of(), ResultText.details(result(passed(), 1, 1)));
        assertEquals(
                List.of("note: reach blocked: released with a jump"),
                ResultText.details(result(passed("released with a jump"), 1, 1)));
    }

    @Test
    void aPassThatWasStruckMoreThanOnceSaysSo() {
        Judgement judgement =
                new Judgement(Verdict.PASS, List.of(), NO_TIME, NO_TIME, NO_TIME, List.of(struckTwice()), List.of());

        assertEquals(
                List.of("note: reach blocked: injection 1 struck 2 times"),
                ResultText.details(result(judgement, 1, 1)));
    }

    @Test
    void aRowHasTimesMarginRepeatFailSafesAndEvidence() {
        assertEquals(
                """
                verdict          detected    recovered       margin       in value   script
                fail             137.4 ms            -     -62.0 ms    +0.44 V ...   reach blocked, FS-01 FS-02, told
                pass             137.4 ms    1126.2 ms      +0.0 ms              -   reach blocked (2 of 5), FS-01 FS-02, told
                """,
                ResultText.heads() + "\n"
                        + ResultText.row(result(failed(), 1, 1)) + "\n"
                        + ResultText.row(result(passed(), 2, 5)) + "\n");
    }

    @Test
    void aWholeRunIsSummedUpInOneLine() {
        assertEquals(
                List.of("2 scripts: 1 pass, 1 fail; 5.1 s on the rig's clock"),
                ResultText.summary(run(complete(), 2, result(passed(), 1, 1), result(failed(), 1, 1))));
    }

    @Test
    void whatWasNotRunIsNamedWithTheReason() {
        RunEnd end = new RunEnd(RunEnd.Cause.RIG, "the rig did not come to ready");

        assertEquals(
                List.of(
                        "The run went no further: the rig did not come to ready.",
                        "not run: script 1",
                        "not run: script 2",
                        "3 scripts: 1 pass, 2 not run; 2.6 s on the rig's clock"),
                ResultText.summary(run(Optional.of(end), 3, result(passed(), 1, 1))));
    }

    @Test
    void ofVeryManyOnlyTheFirstAreNamed() {
        List<String> lines = ResultText.summary(run(Optional.empty(), 3000, result(passed(), 1, 1)));

        List<String> expected = new ArrayList<>();
        expected.add("The run was cut short: its journal has no end.");
        IntStream.rangeClosed(1, 20).forEach(i -> expected.add("not run: script " + i));
        expected.add("not run: and 2979 more");
        expected.add("3000 scripts: 1 pass, 2999 not run; 2.6 s on the rig's clock");
        assertEquals(expected, lines);
    }

    @Test
    void aRunThatTheRigEndedIsAnErrorEvenIfAllThatRanPassed() {
        RunEnd end = new RunEnd(RunEnd.Cause.RIG, "the cable is out");

        assertEquals(
                Verdict.ERROR,
                Summary.of(run(Optional.of(end), 2, result(passed(), 1, 1))).worst());
        assertEquals(
                Verdict.PASS,
                Summary.of(run(complete(), 1, result(passed(), 1, 1))).worst());
        assertEquals(Verdict.NONE, Summary.of(run(Optional.empty(), 2)).worst());
    }

    @Test
    void resultsForProgramsHaveAllOfTheJournalAndASummary(@TempDir Path folder) throws IOException {
        RunRecord run = run(complete(), 3, result(passed(), 1, 1), result(failed(), 1, 1));

        Path file = ResultsJson.write(run, folder);

        assertEquals(folder.resolve("results.json"), file);
        assertTrue(Files.readString(file).endsWith("}\n"));
        JsonNode json = new JsonMapper().readTree(file);
        assertEquals("2026-03-01T22:15:00Z", json.path("header").path("started").asString());
        assertEquals("COMPLETE", json.path("end").path("cause").asString());
        JsonNode fail = json.path("results").path(1);
        assertEquals("plans/blocked.fault.yaml", fail.path("place").path("file").asString());
        assertEquals(-62_000, fail.path("judgement").path("marginMicros").asLong());
        assertTrue(fail.path("judgement").path("recoveryMicros").isNull());
        assertEquals(
                "step REACHING at +250.1 ms",
                fail.path("judgement")
                        .path("findings")
                        .path(1)
                        .path("facts")
                        .path(1)
                        .path("text")
                        .asString());
        JsonNode summary = json.path("summary");
        assertEquals(
                "{\"planned\":3,\"none\":1,\"pass\":1,\"inconclusive\":0,\"fail\":1,\"error\":0,\"worst\":\"fail\"}",
                summary.toString());
        assertEquals("[\"script 2\"]", json.path("notRun").toString());
    }
}
