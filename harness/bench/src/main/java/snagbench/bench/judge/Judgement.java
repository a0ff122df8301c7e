package snagbench.bench.judge;

import java.util.List;
import java.util.OptionalLong;

/**
 * What a script came to, and why.
 *
 * @param verdict the worst of all findings
 * @param findings of every expectation in the script's order, then of whatever else went wrong
 * @param detectionMicros from the first tick with the override to the report of the fail-safe that must answer
 * @param recoveryMicros from the first tick with the override to the latest state that had to come about and did,
 *     behind the answer of the fail-safe where one must answer
 * @param marginMicros least margin of all findings: how much earlier than its deadline the tightest was; negative when
 *     missed
 * @param injections what is known of each injection, in the script's order
 * @param reasons why it is no pass, a sentence each, and notes; empty for a plain pass
 */
public record Judgement(
        Verdict verdict,
        List<Finding> findings,
        OptionalLong detectionMicros,
        OptionalLong recoveryMicros,
        OptionalLong marginMicros,
        List<InjectionFacts> injections,
        List<String> reasons) {
    /** Copies the lists. */
    public Judgement {
        findings = List.copyOf(findings);
        injections = List.copyOf(injections);
        reasons = List.copyOf(reasons);
    }
}
