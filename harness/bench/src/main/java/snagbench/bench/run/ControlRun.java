package snagbench.bench.run;

import java.util.List;
import java.util.Optional;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.FaultScript;

/**
 * A control run that is to be made.
 *
 * @param control what it is a control of
 * @param script what the rig is armed with, and what must follow
 * @param judgedFrom how many of its expectations are there for others to hang on only, and are not judged; they come first
 * @param instead the judgement, where it cannot or need not be run
 */
record ControlRun(Control control, FaultScript script, int judgedFrom, Optional<Judgement> instead) {
    private static final String GUARD = "guard";

    static ControlRun notPossible(Control control, FaultScript script, String reason) {
        return new ControlRun(control, script, 0, Optional.of(Judgements.none(reason)));
    }

    /** What the run came to, as far as it is asked. */
    Judgement taken(Judgement judged) {
        Judgement judgement = judgedFrom == 0 ? judged : withoutTheFirst(judged);
        return control.role() == Role.INHIBITED && isStoppedByAGuard(judgement) ? asFail(judgement) : judgement;
    }

    private Judgement withoutTheFirst(Judgement judged) {
        List<Finding> findings =
                judged.findings().subList(judgedFrom, judged.findings().size());
        return new Judgement(
                findings.stream().map(Finding::verdict).reduce(Verdict.NONE, Verdict::worse),
                findings,
                judged.detectionMicros(),
                judged.recoveryMicros(),
                judged.marginMicros(),
                judged.injections(),
                judged.reasons());
    }

    /** The fault had struck, and nothing but a guard keeps it from being judged. */
    private static boolean isStoppedByAGuard(Judgement judgement) {
        return judgement.verdict() == Verdict.ERROR
                && judgement.injections().stream()
                        .anyMatch(one -> one.firstTick().isPresent())
                && judgement.findings().stream()
                        .filter(one -> one.verdict() == Verdict.ERROR)
                        .allMatch(one -> one.name().equals(GUARD) || one.name().startsWith(GUARD + " "));
    }

    /** In an inhibited run a guard's trip is what was asked: the script did not pass. */
    private static Judgement asFail(Judgement judgement) {
        return new Judgement(
                Verdict.FAIL,
                judgement.findings(),
                judgement.detectionMicros(),
                judgement.recoveryMicros(),
                judgement.marginMicros(),
                judgement.injections(),
                judgement.reasons());
    }
}
