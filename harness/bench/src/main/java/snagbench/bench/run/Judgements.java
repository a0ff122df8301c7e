package snagbench.bench.run;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import snagbench.bench.judge.Fact;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.FaultScript;

/** What the harness itself adds to a judgement: it alone sets the verdict "error". */
final class Judgements {
    private static final String CONTROL_RUNS = "the control runs";

    private Judgements() {}

    static Judgement error(String reason, FaultScript script) {
        return new Judgement(
                Verdict.ERROR,
                List.of(finding(Verdict.ERROR, reason, script)),
                OptionalLong.empty(),
                OptionalLong.empty(),
                OptionalLong.empty(),
                List.of(),
                List.of(reason));
    }

    /** Of a script that was left out. */
    static Judgement none(String reason) {
        return new Judgement(
                Verdict.NONE,
                List.of(),
                OptionalLong.empty(),
                OptionalLong.empty(),
                OptionalLong.empty(),
                List.of(),
                List.of(reason));
    }

    /** Of a control run that is wanted and cannot be made for a lack of the script. */
    static Judgement inconclusive(String reason) {
        return new Judgement(
                Verdict.INCONCLUSIVE,
                List.of(),
                OptionalLong.empty(),
                OptionalLong.empty(),
                OptionalLong.empty(),
                List.of(),
                List.of(reason));
    }

    static Judgement worsened(Judgement judgement, Verdict to, String reason, FaultScript script) {
        List<Finding> findings = new ArrayList<>(judgement.findings());
        findings.add(finding(to, reason, script));
        return judgement.withFindings(findings, List.of(reason));
    }

    /** Also one whose pass was taken for what its control runs say. */
    static boolean passedByItself(ScriptResult result) {
        Judgement judgement = result.judgement();
        return judgement.verdict() == Verdict.PASS
                || judgement.findings().stream().anyMatch(one -> one.name().equals(CONTROL_RUNS));
    }

    /** A pass that does not stand: the control runs were against it. */
    static ScriptResult concluded(ScriptResult result, List<String> reasons) {
        if (reasons.isEmpty() || result.judgement().verdict() != Verdict.PASS) {
            return result;
        }
        Judgement judgement = result.judgement();
        List<Finding> findings = new ArrayList<>(judgement.findings());
        findings.add(new Finding(
                CONTROL_RUNS,
                result.place(),
                Verdict.INCONCLUSIVE,
                reasons.stream().map(reason -> new Fact("but was", reason)).toList(),
                OptionalLong.empty(),
                OptionalLong.empty(),
                OptionalLong.empty()));
        return result.with(judgement.withFindings(findings, reasons));
    }

    private static Finding finding(Verdict verdict, String reason, FaultScript script) {
        return new Finding(
                "the rig and the line to it",
                script.place(),
                verdict,
                List.of(new Fact("was", reason)),
                OptionalLong.empty(),
                OptionalLong.empty(),
                OptionalLong.empty());
    }
}
