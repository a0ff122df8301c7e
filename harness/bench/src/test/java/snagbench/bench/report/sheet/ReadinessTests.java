package snagbench.bench.report.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Fact;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.run.RunHeader;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.Place;

/** How fail-safes stand before an event, by runs of several days and builds. */
class ReadinessTests {
    private static final RegisterSheet REGISTER = new RegisterSheet(
            "",
            Optional.empty(),
            0,
            List.of(failSafe("FS-01", "a", "b"), failSafe("FS-02", "c"), failSafe("FS-03")),
            List.of(),
            List.of(),
            List.of());

    private static RegisterSheet.FailSafe failSafe(String name, String... scripts) {
        List<String> files = new ArrayList<>();
        for (String script : scripts) {
            files.add(script + ".fault.yaml");
        }
        return new RegisterSheet.FailSafe(name, "title", "II", files, Optional.empty(), "", Optional.empty());
    }

    private static ScriptResult result(
            String script, String failSafe, Verdict verdict, long margin, ScriptResult.Evidence evidence) {
        return result(script, failSafe, verdict, margin, evidence, failSafe + " answers 80 ms to 250 ms after jams");
    }

    private static ScriptResult result(
            String script,
            String failSafe,
            Verdict verdict,
            long margin,
            ScriptResult.Evidence evidence,
            String expected) {
        Place place = new Place(Path.of("plans", script + ".fault.yaml"), 1, 1);
        return new ScriptResult(
                0,
                script,
                place,
                1,
                1,
                7,
                List.of(failSafe),
                evidence,
                new Judgement(
                        verdict,
                        List.of(new Finding(
                                "sees it",
                                place,
                                Verdict.PASS,
                                List.of(new Fact("expected", expected)),
                                OptionalLong.empty(),
                                OptionalLong.empty(),
                                OptionalLong.empty())),
                        OptionalLong.empty(),
                        OptionalLong.empty(),
                        OptionalLong.of(margin),
                        List.of(),
                        List.of("that is why")),
                1_000,
                new ScriptResult.LoopTimes(1, 1),
                0,
                Optional.empty(),
                Optional.empty());
    }

    private static ScriptResult told(String script, String failSafe, Verdict verdict, long margin) {
        return result(script, failSafe, verdict, margin, ScriptResult.Evidence.TOLD);
    }

    private static ScriptResult quiet(String script, String failSafe) {
        return result(
                script,
                failSafe,
                Verdict.PASS,
                7,
                ScriptResult.Evidence.TOLD,
                failSafe + " silent to the script's end");
    }

    private static RunRecord run(String day, String build, ScriptResult... results) {
        return new RunRecord(
                new RunHeader(
                        Instant.parse("2026-03-" + day + "T10:00:00Z"),
                        "0.1",
                        "17",
                        "p",
                        "p",
                        "rig",
                        build,
                        true,
                        "0",
                        7,
                        List.of()),
                List.of(results),
                Optional.empty());
    }

    private static Readiness.Line line(Optional<String> machine, String failSafe, RunRecord... runs) {
        return Readiness.of("rig", REGISTER, List.of(runs), machine).lines().stream()
                .filter(one -> one.failSafe().name().equals(failSafe))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theNewestResultsOfEachScriptAreTheProofWithTheirLeastMarginAndWhatTheyLeaveOut() {
        RunRecord older = run(
                "01",
                "B",
                told("a", "FS-01", Verdict.PASS, 1),
                result("b", "FS-01", Verdict.PASS, 5, ScriptResult.Evidence.PHYSICAL));
        RunRecord newer = run("02", "B", told("a", "FS-01", Verdict.PASS, 900));

        Readiness.Line both = line(Optional.of("B"), "FS-01", newer, older);
        Readiness.Line one = line(Optional.of("B"), "FS-01", newer);

        assertEquals(Readiness.State.PROVEN, both.state());
        Readiness.Proof proof = both.proof().orElseThrow();
        assertEquals("2026-03-02", Readiness.day(proof.when()));
        assertEquals("2026-03-01", Readiness.day(proof.since()));
        assertEquals(OptionalLong.of(5), proof.margin());
        assertEquals(ScriptResult.Evidence.TOLD_AND_PHYSICAL, proof.evidence());
        assertEquals(2, proof.runs());
        assertEquals(List.of(), both.notCovered());
        assertEquals(List.of("b.fault.yaml"), one.notCovered());
        assertEquals(OptionalLong.of(900), one.proof().orElseThrow().margin());
    }

    @Test
    void aNewerRunOfOneScriptHidesNoFailOfAnother() {
        RunRecord failed = run("01", "B", told("a", "FS-01", Verdict.PASS, 9), told("b", "FS-01", Verdict.FAIL, -4));
        RunRecord newer = run("02", "B", told("a", "FS-01", Verdict.PASS, 9));
        RunRecord mended = run("03", "B", told("b", "FS-01", Verdict.PASS, 8));

        Readiness.Line line = line(Optional.of("B"), "FS-01", failed, newer);

        assertEquals(Readiness.State.FAILED, line.state());
        assertEquals("fail on build B, 2026-03-01, b: that is why", line.trouble());
        assertEquals(Optional.empty(), line.proof());
        assertEquals(
                Readiness.State.FAILED,
                line(Optional.empty(), "FS-01", failed, newer).state());
        Readiness.Line after = line(Optional.of("B"), "FS-01", failed, newer, mended);
        assertEquals(Readiness.State.PROVEN, after.state());
        assertEquals("", after.trouble());
        assertEquals(OptionalLong.of(8), after.proof().orElseThrow().margin());
    }

    @Test
    void aScriptInWhichItOnlyHadToKeepQuietIsNoProof() {
        RunRecord quiet = run("02", "B", quiet("a", "FS-01"));
        Readiness readiness = Readiness.of("rig", REGISTER, List.of(quiet), Optional.of("B"));
        Readiness.Line line = readiness.lines().get(0);

        assertEquals(Readiness.State.NOT_ASKED, line.state());
        assertEquals(Optional.empty(), line.proof());
        assertEquals(
                "pass on build B, 2026-03-02, a: it only had to keep quiet, as it would if it were not there",
                line.trouble());
        assertTrue(
                readiness.warnings().contains("run, but nothing that was run asked it to answer: FS-01"),
                () -> readiness.warnings().toString());
        assertEquals(
                Readiness.State.NOT_ASKED,
                line(Optional.empty(), "FS-01", quiet).state());

        // It counts beside one that proves something, and hides none that failed.
        RunRecord proof = run("01", "B", told("b", "FS-01", Verdict.PASS, 9));
        assertEquals(
                Readiness.State.PROVEN,
                line(Optional.of("B"), "FS-01", proof, quiet).state());
        assertEquals(
                Readiness.State.FAILED,
                line(Optional.of("B"), "FS-01", run("01", "B", told("b", "FS-01", Verdict.FAIL, -9)), quiet)
                        .state());
        assertEquals(
                Readiness.State.OTHER_BUILD,
                line(Optional.of("B"), "FS-01", run("01", "C", told("b", "FS-01", Verdict.PASS, 9)), quiet)
                        .state());
    }

    @Test
    void howOftenItAnswersIsAProofOnlyIfItHadToAtLeastOnce() {
        for (String expected : List.of(
                "FS-01 answers 1 time, within 2 s of jams",
                "FS-01 answers at least 1 time, within 2 s of jams",
                "FS-01 answers 1 to 2 times, within 2 s of jams",
                "FS-01 answers for the 2nd time within 2 s of jams")) {
            assertEquals(Readiness.State.PROVEN, expecting(expected).state(), expected);
        }
        for (String expected : List.of(
                "FS-01 answers at most 2 times, within 2 s of jams",
                "FS-01 answers 0 times, within 2 s of jams",
                "FS-011 answers within 2 s of jams",
                "step AWAY within 2 s of jams")) {
            assertEquals(Readiness.State.NOT_ASKED, expecting(expected).state(), expected);
        }
    }

    private static Readiness.Line expecting(String expected) {
        ScriptResult.Evidence told = ScriptResult.Evidence.TOLD;
        return line(Optional.of("B"), "FS-01", run("01", "B", result("a", "FS-01", Verdict.PASS, 9, told, expected)));
    }

    @Test
    void toldAndPhysicalOfOneRunCountTogetherAndTheTightestIsTheMargin() {
        Readiness.Proof proof = line(
                        Optional.of("B"),
                        "FS-01",
                        run(
                                "01",
                                "B",
                                told("a", "FS-01", Verdict.PASS, 900),
                                result("b", "FS-01", Verdict.PASS, 5, ScriptResult.Evidence.PHYSICAL)))
                .proof()
                .orElseThrow();

        assertEquals(ScriptResult.Evidence.TOLD_AND_PHYSICAL, proof.evidence());
        assertEquals(OptionalLong.of(5), proof.margin());
        assertEquals(2, proof.scripts());
    }

    @Test
    void oneFailAmongPassesIsNoProofAndIsToldWithItsReason() {
        Readiness.Line line = line(
                Optional.of("B"),
                "FS-01",
                run("01", "B", told("a", "FS-01", Verdict.PASS, 9)),
                run("02", "B", told("a", "FS-01", Verdict.PASS, 9), told("b", "FS-01", Verdict.FAIL, -4)));

        assertEquals(Readiness.State.FAILED, line.state());
        assertEquals("2026-03-01", Readiness.day(line.proof().orElseThrow().when()));
        assertEquals("fail on build B, 2026-03-02, b: that is why", line.trouble());
    }

    @Test
    void aProofOnAnotherBuildThanTheMachinesIsSaidToBeOne() {
        Readiness readiness = Readiness.of(
                "rig", REGISTER, List.of(run("01", "B", told("c", "FS-02", Verdict.PASS, 9))), Optional.of("C"));

        assertEquals(Readiness.State.OTHER_BUILD, readiness.lines().get(1).state());
        assertTrue(
                readiness.warnings().contains("proven only on another build than the one on the machine, C: FS-02"),
                () -> readiness.warnings().toString());
    }

    @Test
    void theMachinesOwnBuildCountsHoweverNewRunsOfOthersAre() {
        RunRecord here = run("01", "B", told("c", "FS-02", Verdict.PASS, 9));
        RunRecord failedElsewhere = run("05", "C", told("c", "FS-02", Verdict.FAIL, -9));

        assertEquals(
                Readiness.State.PROVEN,
                line(Optional.of("B"), "FS-02", failedElsewhere, here).state());
        assertEquals(
                Readiness.State.FAILED,
                line(Optional.of("C"), "FS-02", failedElsewhere, here).state());
        // Nobody knows: the newest counts.
        assertEquals(
                Readiness.State.FAILED,
                line(Optional.empty(), "FS-02", failedElsewhere, here).state());
    }

    @Test
    void whatSettledNothingAndWhatWasLeftOutIsNoProof() {
        assertEquals(
                Readiness.State.UNSETTLED,
                line(Optional.of("B"), "FS-02", run("01", "B", told("c", "FS-02", Verdict.INCONCLUSIVE, 0)))
                        .state());
        assertEquals(
                Readiness.State.NEVER,
                line(Optional.of("B"), "FS-02", run("01", "B", told("c", "FS-02", Verdict.NONE, 0)))
                        .state());
        assertEquals(List.of("no script"), line(Optional.of("B"), "FS-03").notCovered());
    }

    @Test
    void runsOfOtherRigsDoNotCountAndWhatIsMissingIsWarnedOf() {
        Readiness readiness = Readiness.of(
                "another", REGISTER, List.of(run("01", "B", told("a", "FS-01", Verdict.PASS, 9))), Optional.empty());

        assertEquals(
                List.of(
                        "no run of another was found",
                        "never run: all of them",
                        "nobody has said which build is on the machine: compare it by hand with the builds below"),
                readiness.warnings());
    }
}
