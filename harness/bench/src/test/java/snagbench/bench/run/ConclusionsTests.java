package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.Place;

/** How verdicts of fault runs and of their control runs are put together. */
class ConclusionsTests {
    private static final RunHeader HEADER = new RunHeader(
            Instant.EPOCH, "h", "17", "p", "p.plan.yaml", "r", "b", false, "0x1", 1, List.of("a", "b", "c"));

    private static ScriptResult run(int index, String script, int repeat, Verdict verdict, Optional<Control> control) {
        Judgement judgement = new Judgement(
                verdict,
                List.of(),
                OptionalLong.empty(),
                OptionalLong.empty(),
                OptionalLong.empty(),
                List.of(),
                verdict == Verdict.PASS ? List.of() : List.of("because"));
        return new ScriptResult(
                index,
                script,
                new Place(Path.of(script + ".fault.yaml"), 1, 1),
                repeat,
                2,
                1,
                List.of("FS-02"),
                ScriptResult.Evidence.TOLD,
                judgement,
                1000,
                new ScriptResult.LoopTimes(1, 2),
                0,
                Optional.empty(),
                Optional.empty(),
                control);
    }

    private static ScriptResult fault(int index, String script, int repeat, Verdict verdict) {
        return run(index, script, repeat, verdict, Optional.empty());
    }

    private static ScriptResult control(int index, String script, int of, Role role, Verdict verdict) {
        return run(index, script, 1, verdict, Optional.of(new Control(role, of, "FS-02 inhibited")));
    }

    private static RunRecord record(List<ScriptResult> results, List<ScriptResult> controls) {
        return new RunRecord(HEADER, results, controls, List.of(), Optional.of(RunEnd.complete()));
    }

    @ParameterizedTest
    @CsvSource({
        "NO_FAULT, PASS, HOLDS, PASS",
        "NO_FAULT, FAIL, FALLS_SHORT, INCONCLUSIVE",
        "NO_FAULT, INCONCLUSIVE, UNSETTLED, INCONCLUSIVE",
        "NO_FAULT, ERROR, UNSETTLED, INCONCLUSIVE",
        "NO_FAULT, NONE, NOT_POSSIBLE, PASS",
        "INHIBITED, PASS, FALLS_SHORT, INCONCLUSIVE",
        "INHIBITED, FAIL, HOLDS, PASS",
        "INHIBITED, INCONCLUSIVE, UNSETTLED, INCONCLUSIVE",
        "INHIBITED, ERROR, UNSETTLED, INCONCLUSIVE",
        "INHIBITED, NONE, NOT_POSSIBLE, PASS",
        "TWIN, PASS, HOLDS, PASS",
        "TWIN, FAIL, FALLS_SHORT, INCONCLUSIVE",
        "TWIN, INCONCLUSIVE, UNSETTLED, INCONCLUSIVE",
        "TWIN, NONE, NOT_POSSIBLE, PASS"
    })
    void aControlRunCanOnlyTakeAPass(Role role, Verdict verdict, ControlCheck.State state, Verdict concluded) {
        RunRecord run = record(List.of(fault(0, "a", 1, Verdict.PASS)), List.of(control(3, "a", 0, role, verdict)));
        Conclusion row = Conclusions.of(run).rows().get(0);
        assertEquals(state, row.controls().get(0).state());
        assertEquals(concluded, row.verdict());
        assertEquals(concluded, run.concluded().results().get(0).judgement().verdict());
        assertEquals(concluded == Verdict.PASS, row.reasons().isEmpty());
    }

    @Test
    void whatFailedStaysAFailWhateverItsControlRunsSay() {
        RunRecord run = record(
                List.of(fault(0, "a", 1, Verdict.FAIL)), List.of(control(3, "a", 0, Role.INHIBITED, Verdict.PASS)));
        assertEquals(Verdict.FAIL, Conclusions.of(run).rows().get(0).verdict());
        assertEquals(run.results(), run.concluded().results());
    }

    @Test
    void repeatsHaveTheirControlRunsInCommon() {
        RunRecord run = record(
                List.of(fault(0, "a", 1, Verdict.PASS), fault(1, "a", 2, Verdict.PASS), fault(2, "b", 1, Verdict.PASS)),
                List.of(control(3, "a", 0, Role.INHIBITED, Verdict.PASS)));
        List<Conclusion> rows = Conclusions.of(run).rows();
        assertEquals(
                List.of(List.of(0, 1), List.of(2)),
                rows.stream().map(Conclusion::runs).toList());
        assertEquals(
                List.of(Verdict.INCONCLUSIVE, Verdict.PASS),
                rows.stream().map(Conclusion::verdict).toList());
        assertEquals(
                List.of(Verdict.INCONCLUSIVE, Verdict.INCONCLUSIVE, Verdict.PASS),
                run.concluded().results().stream()
                        .map(one -> one.judgement().verdict())
                        .toList());
    }

    @Test
    void whatBothPassesAndFailsIsInconsistentAndAFail() {
        RunRecord run = record(List.of(fault(0, "a", 1, Verdict.PASS), fault(1, "a", 2, Verdict.FAIL)), List.of());
        Conclusion row = Conclusions.of(run).rows().get(0);
        assertTrue(row.inconsistent());
        assertEquals(Verdict.FAIL, row.verdict());
        RunRecord steady = record(
                List.of(fault(0, "a", 1, Verdict.FAIL), fault(1, "a", 2, Verdict.FAIL)), Collections.emptyList());
        assertFalse(Conclusions.of(steady).rows().get(0).inconsistent());
    }

    @Test
    void toConcludeTwiceChangesNothing() {
        RunRecord run = record(
                List.of(fault(0, "a", 1, Verdict.PASS), fault(1, "a", 2, Verdict.FAIL)),
                List.of(control(3, "a", 0, Role.NO_FAULT, Verdict.FAIL)));
        RunRecord once = run.concluded();
        assertEquals(once, once.concluded());
        assertEquals(Conclusions.of(run).rows(), Conclusions.of(once).rows());
        assertTrue(Conclusions.of(once).rows().get(0).inconsistent());
    }
}
