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

    static Judgement worsened(Judgement judgement, Verdict to, String reason, FaultScript script) {
        List<Finding> findings = new ArrayList<>(judgement.findings());
        findings.add(finding(to, reason, script));
        return judgement.withFindings(findings, List.of(reason));
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
