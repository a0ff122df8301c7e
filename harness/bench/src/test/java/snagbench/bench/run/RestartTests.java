package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.ResultText;
import snagbench.bench.script.FaultScript;
import snagbench.bench.session.Shuttle;

/** The controller's battery sags in mid-script, and it restarts. */
class RestartTests {
    private final FaultScript jam = Shuttle.script("obstacle-in-the-way");
    private final FaultScript mild = Shuttle.script("current-spike-too-short");

    @Test
    void aRestartInMidScriptIsAFailThatNamesItsCause() throws Exception {
        ScriptResult result = Runs.on("weak-battery").of(1, jam).only();

        String details = String.join("\n", ResultText.details(result));
        assertEquals(Verdict.FAIL, result.judgement().verdict(), details);
        assertTrue(details.contains("the controller restarted (brown-out) after "), details);
        assertTrue(details.contains("expected : the controller keeps running"), details);
        assertTrue(result.rigMicros() > 0, "what was seen before is kept");
    }

    @Test
    void theSameScriptOnASoundBatteryHasNone() throws Exception {
        ScriptResult result = Runs.on("standard").of(1, jam).only();

        assertEquals(Verdict.PASS, result.judgement().verdict(), () -> String.join("\n", ResultText.details(result)));
    }

    @Test
    void aVirtualRigIsBroughtToReadyAgainAndThePlanGoesOn() throws Exception {
        RunRecord run =
                Runs.on("weak-battery").of(1, mild, jam, mild, jam, mild).run();

        assertEquals(
                List.of(Verdict.PASS, Verdict.FAIL, Verdict.PASS, Verdict.FAIL, Verdict.PASS),
                run.results().stream().map(one -> one.judgement().verdict()).toList(),
                () -> run.results().stream()
                        .flatMap(one -> ResultText.details(one).stream())
                        .toList()
                        .toString());
        assertEquals(RunEnd.Cause.COMPLETE, run.end().orElseThrow().cause());
        assertEquals(List.of(), run.notRun());
    }
}
