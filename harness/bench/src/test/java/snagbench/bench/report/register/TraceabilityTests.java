package snagbench.bench.report.register;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.ScriptResult;

/** Who proves what, and what is amiss between register, plan and results. */
class TraceabilityTests {
    private static RegisterSheet.Script script(String file, String... failSafes) {
        return new RegisterSheet.Script(file, "script " + file, List.of(failSafes));
    }

    private static Traceability of(
            List<RegisterSheet.FailSafe> failSafes, List<RegisterSheet.Script> scripts, ScriptResult... results) {
        RegisterSheet sheet = new RegisterSheet(
                "a plan",
                Optional.empty(),
                5_000_000,
                failSafes,
                scripts,
                List.of(new RegisterSheet.Combination(
                        "OUT", "x", List.of("FS-01"), List.of("freeze"), List.of("stuck-at", "drift"))),
                List.of());
        return Traceability.of(sheet, List.of(results));
    }

    @Test
    void aRowTellsTheWorstOfItsRuns() {
        Traceability matrix = of(
                List.of(Results.failSafe("FS-01", "a", "b")),
                List.of(script("a", "FS-01"), script("b", "FS-01")),
                Results.result("a", Verdict.PASS, 1, "FS-01"),
                Results.result("a", Verdict.INCONCLUSIVE, 1, "FS-01"),
                Results.result("a", Verdict.PASS, 1, "FS-01"));

        assertEquals(
                List.of(
                        new Traceability.Row(
                                "FS-01", "a", Optional.of(ScriptResult.Evidence.TOLD), Verdict.INCONCLUSIVE, 3, true),
                        new Traceability.Row("FS-01", "b", Optional.empty(), Verdict.NONE, 0, false)),
                matrix.rows());
        assertEquals(List.of(), matrix.withoutResult());
        assertEquals(List.of(), matrix.notInRegister());
    }

    @Test
    void whatIsWithoutTheOtherIsTold() {
        Traceability matrix = of(
                List.of(Results.failSafe("FS-01"), Results.failSafe("FS-02", "a")),
                List.of(script("a", "FS-02"), script("b")));

        assertEquals(List.of("FS-01"), matrix.withoutScript());
        assertEquals(List.of("FS-01", "FS-02"), matrix.withoutResult());
        assertEquals(List.of("b"), matrix.withoutFailSafe());
        assertEquals(1, matrix.tried());
        assertEquals(3, matrix.possible());
        assertEquals(
                Optional.of(
                        "warning: 1 fail-safe without a script; 1 fail-safe of which no script was run; 1 script without"
                                + " a fail-safe; 2 of 3 combinations of step, channel and fault never tried (\"how\" lists them)"),
                RegisterText.warning(matrix, "how"));
    }

    @Test
    void whereRegisterAndScriptSayOtherwiseBothWaysAreTold() {
        Traceability matrix = of(
                List.of(Results.failSafe("FS-01", "a"), Results.failSafe("FS-02")),
                List.of(script("a", "FS-02")),
                Results.result("a", Verdict.PASS, 1, "FS-02"));

        assertEquals(
                List.of(
                        "the register names a for FS-01, and the script does not say so",
                        "a says it is evidence for FS-02, and the register does not name it there"),
                matrix.notInRegister());
        assertEquals(List.of(), matrix.withoutScript());
        assertEquals(2, matrix.rows().size());
    }

    @Test
    void nothingAmissIsNoWarning() {
        RegisterSheet sheet = new RegisterSheet(
                "a plan",
                Optional.empty(),
                0,
                List.of(Results.failSafe("FS-01", "a")),
                List.of(script("a", "FS-01")),
                List.of(),
                List.of());

        assertEquals(
                Optional.empty(),
                RegisterText.warning(
                        Traceability.of(sheet, List.of(Results.result("a", Verdict.PASS, 1, "FS-01"))), "how"));
    }
}
