package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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
        Judgement judgement = judge(course, rig);
        OptionalLong settled =
                judgement.verdict() == Verdict.FAIL ? SettledFail.tick(script, trace, rig) : OptionalLong.empty();
        if (settled.isEmpty()) {
            return judgement;
        }
        Judgement with = judgement.settledBy(settled.getAsLong());
        return endedEarly(course)
                ? with.noted(List.of("what was recorded ends before the script does; it had failed by tick "
                        + settled.getAsLong() + ", whatever would have come behind that"))
                : with;
    }

    /** Nothing cut it short, and yet somebody stopped listening. */
    private static boolean endedEarly(Course course) {
        OptionalLong end = course.ending().listenToMicros();
        return course.trace().restart().isEmpty()
                && !course.timeline().wasStopped()
                && (end.isEmpty() || end.getAsLong() > course.timeline().seenThroughMicros());
    }

    private static Judgement judge(Course course, RigFile rig) {
        FaultScript script = course.script();
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
                after(response.split().detected()),
                after(response.split().recovered()),
                Judgement.leastMargin(findings),
                injections.stream().map(Struck::facts).toList(),
                others.stream().map(Judge::reason).toList(),
                ValueMargin.least(findings.stream().flatMap(one -> one.marginValue().stream())),
                response.split(),
                OptionalLong.empty());
    }

    private static OptionalLong after(Optional<Reached> reached) {
        return reached.isPresent() ? OptionalLong.of(reached.get().afterMicros()) : OptionalLong.empty();
    }

    private static String reason(Finding finding) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals("but was") || fact.label().equals("closest"))
                .map(Fact::text)
                .reduce((one, other) -> one + "; " + other)
                .orElse(finding.name());
    }
}
