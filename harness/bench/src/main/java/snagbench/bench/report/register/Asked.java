package snagbench.bench.report.register;

import java.util.List;
import snagbench.bench.judge.Fact;
import snagbench.bench.judge.Finding;
import snagbench.bench.run.ScriptResult;

/** Whether a script asks a fail-safe to answer. One that only asks it to keep quiet passes also where the fail-safe is not there at all. */
public final class Asked {
    private static final String EXPECTED = "expected";

    private Asked() {}

    /**
     * Tells whether a fail-safe had to answer. Where the verdict is a pass, it did.
     *
     * @param result of a script
     * @param failSafe such as "FS-02"
     * @return false where it had to keep quiet, or was free to answer or not
     */
    public static boolean toAnswer(ScriptResult result, String failSafe) {
        List<Finding> findings = result.judgement().findings();
        if (findings.stream().anyMatch(finding -> saysOf(finding, failSafe + " answers ") && !mayStaySilent(finding))) {
            return true;
        }
        // A detection is a report of the fail-safe that must answer; where a script is about several, it could be
        // another's.
        return result.judgement().detectionMicros().isPresent()
                && result.failSafes().equals(List.of(failSafe))
                && findings.stream().noneMatch(finding -> saysOf(finding, failSafe + " silent"));
    }

    private static boolean saysOf(Finding finding, String beginning) {
        return expected(finding).startsWith(beginning);
    }

    /** Of how often it answers, what allows for none. */
    private static boolean mayStaySilent(Finding finding) {
        String expected = expected(finding);
        return expected.contains(" answers at most ") || expected.contains(" answers 0 times");
    }

    private static String expected(Finding finding) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(EXPECTED))
                .map(Fact::text)
                .findFirst()
                .orElse("");
    }
}
