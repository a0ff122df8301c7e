package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigFile;
import snagbench.bench.trace.Trace;

/**
 * Judges what was seen against what a script expects. Same trace, same judgement, always.
 *
 * <p>Signals are piecewise constant on ticks: a reading holds from the start of its tick to the start of the next, and a
 * time is compared at starts of ticks. A deadline D from t0 is met if t - t0 &lt;= D; a lower edge L if t - t0 &gt;= L.
 */
public final class Judge {
    private Judge() {}

    /**
     * Judges a trace.
     *
     * @param script what had to follow
     * @param trace what was seen, of a rig armed with this script
     * @param rig what only people know of the rig: its guards, in their order on the rig, and its settling time
     * @return verdict, margins and reasons
     */
    public static Judgement judge(FaultScript script, Trace trace, RigFile rig) {
        Course course = new Course(script, trace, rig.settlingMicros());
        List<Finding> findings = new ArrayList<>();
        for (int i = 0; i < script.expectations().size(); i++) {
            findings.add(course.outcome(i).finding());
        }
        List<Struck> injections = new ArrayList<>();
        for (int i = 0; i < script.injections().size(); i++) {
            injections.add(new Struck(course, i));
        }
        Response response = new Response(course, injections);
        List<Finding> others = new ArrayList<>(new Interruptions(course, rig.guards()).findings());
        injections.forEach(one -> one.withoutEffect().ifPresent(others::add));
        others.addAll(response.withoutCause());
        findings.addAll(others);
        return new Judgement(
                findings.stream().map(Finding::verdict).reduce(Verdict.NONE, Verdict::worse),
                findings,
                response.detectionMicros(),
                response.recoveryMicros(),
                leastMargin(findings),
                injections.stream().map(Struck::facts).toList(),
                others.stream().map(Judge::reason).toList());
    }

    private static OptionalLong leastMargin(List<Finding> findings) {
        return findings.stream()
                .filter(one -> one.marginMicros().isPresent())
                .mapToLong(one -> one.marginMicros().getAsLong())
                .min();
    }

    private static String reason(Finding finding) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals("but was") || fact.label().equals("closest"))
                .map(Fact::text)
                .reduce((one, other) -> one + "; " + other)
                .orElse(finding.name());
    }
}
