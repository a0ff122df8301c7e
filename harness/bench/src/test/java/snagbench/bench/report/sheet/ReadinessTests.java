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
        return new ScriptResult(
                0,
                script,
                new Place(Path.of("plans", script + ".fault.yaml"), 1, 1),
                1,
                1,
                7,
                List.of(failSafe),
                evidence,
                new Judgement(
                        verdict,
                        List.of(),
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
    void theNewestRunInWhichAllOfItPassedIsTheProofWithItsLeastMarginAndWhatItLeftOut() {
        Readiness.Line line = line(
                Optional.of("B"),
                "FS-01",
                run("02", "B", told("a", "FS-01", Verdict.PASS, 900)),
                run(
                        "01",
                        "B",
                        told("a", "FS-01", Verdict.PASS, 1),
                        result("b", "FS-01", Verdict.PASS, 5, ScriptResult.Evidence.PHYSICAL)));

        assertEquals(Readiness.State.PROVEN, line.state());
        Readiness.Proof proof = line.proof().orElseThrow();
        assertEquals("2026-03-02", Readiness.day(proof.when()));
        assertEquals(OptionalLong.of(900), proof.margin());
        assertEquals(ScriptResult.Evidence.TOLD, proof.evidence());
        assertEquals(List.of("b.fault.yaml"), line.notCovered());
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
