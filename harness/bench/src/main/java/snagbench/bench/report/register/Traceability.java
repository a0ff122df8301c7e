package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.Role;
import snagbench.bench.run.ScriptResult;

/**
 * Which script proves which fail-safe, and what nothing proves.
 *
 * @param rows of the matrix: fail-safe by fail-safe in the register's order, script by script
 * @param withoutScript fail-safes for which the register names no script and the plan has none
 * @param withoutResult fail-safes of which nothing was run
 * @param withoutFailSafe scripts of the plan that name no fail-safe
 * @param notInRegister scripts that name a fail-safe for which the register does not name them, or the other way round
 * @param tried how many combinations of step, channel and kind of fault the plan tries, of those that symptoms look at
 * @param possible how many there are
 * @param combinations these, step by step
 */
public record Traceability(
        List<Row> rows,
        List<String> withoutScript,
        List<String> withoutResult,
        List<String> withoutFailSafe,
        List<String> notInRegister,
        int tried,
        int possible,
        List<RegisterSheet.Combination> combinations) {
    /** Copies the lists. */
    public Traceability {
        rows = List.copyOf(rows);
        withoutScript = List.copyOf(withoutScript);
        withoutResult = List.copyOf(withoutResult);
        withoutFailSafe = List.copyOf(withoutFailSafe);
        notInRegister = List.copyOf(notInRegister);
        combinations = List.copyOf(combinations);
    }

    /**
     * A cell of the matrix.
     *
     * @param failSafe name of the fail-safe
     * @param script file name of the script
     * @param evidence told, physical or both; empty where it was not run
     * @param verdict the worst of its runs, none where it was not run
     * @param runs how many
     * @param asked true if the fail-safe had to answer in one of them; else the script proves nothing by itself
     */
    public record Row(
            String failSafe,
            String script,
            Optional<ScriptResult.Evidence> evidence,
            Verdict verdict,
            int runs,
            boolean asked) {
        /**
         * Tells whether all runs passed and the fail-safe only had to keep quiet, as it would if it were not there.
         *
         * @return true if the script proves nothing by itself
         */
        public boolean onlyQuiet() {
            return verdict == Verdict.PASS && !asked;
        }
    }

    /**
     * Lays register and results side by side.
     *
     * @param sheet what register and plan said
     * @param results what came of the scripts
     * @return the matrix and its gaps
     */
    public static Traceability of(RegisterSheet sheet, List<ScriptResult> results) {
        List<Row> rows = new ArrayList<>();
        List<String> withoutScript = new ArrayList<>();
        List<String> withoutResult = new ArrayList<>();
        List<String> notInRegister = new ArrayList<>();
        for (RegisterSheet.FailSafe failSafe : sheet.failSafes()) {
            TreeSet<String> scripts = new TreeSet<>(failSafe.scripts());
            for (RegisterSheet.Script script : sheet.scripts()) {
                boolean says = script.failSafes().contains(failSafe.name());
                if (says != failSafe.scripts().contains(script.file())) {
                    notInRegister.add(
                            says
                                    ? script.file() + " says it is evidence for " + failSafe.name()
                                            + ", and the register does not name it there"
                                    : "the register names " + script.file() + " for " + failSafe.name()
                                            + ", and the script does not say so");
                }
                if (says) {
                    scripts.add(script.file());
                }
            }
            if (scripts.isEmpty()) {
                withoutScript.add(failSafe.name());
            }
            List<Row> own = scripts.stream()
                    .map(script -> row(failSafe.name(), script, results))
                    .toList();
            if (own.stream().allMatch(row -> row.runs() == 0)) {
                withoutResult.add(failSafe.name());
            }
            rows.addAll(own);
        }
        List<String> withoutFailSafe = sheet.scripts().stream()
                .filter(script -> script.failSafes().isEmpty())
                .map(RegisterSheet.Script::file)
                .toList();
        int tried = sheet.combinations().stream()
                .mapToInt(one -> one.tried().size())
                .sum();
        int never = sheet.combinations().stream()
                .mapToInt(one -> one.never().size())
                .sum();
        return new Traceability(
                rows,
                withoutScript,
                withoutResult,
                withoutFailSafe,
                notInRegister,
                tried,
                tried + never,
                sheet.combinations());
    }

    private static Row row(String failSafe, String script, List<ScriptResult> results) {
        List<ScriptResult> own = results.stream()
                .filter(result -> result.role() == Role.FAULT)
                .filter(result -> SheetMaker.nameOf(result.place().file()).equals(script))
                .toList();
        Verdict worst = Verdict.NONE;
        for (ScriptResult result : own) {
            worst = worst.worse(result.judgement().verdict());
        }
        boolean asked = own.stream().anyMatch(result -> Asked.toAnswer(result, failSafe));
        return new Row(
                failSafe, script, own.stream().findFirst().map(ScriptResult::evidence), worst, own.size(), asked);
    }
}
