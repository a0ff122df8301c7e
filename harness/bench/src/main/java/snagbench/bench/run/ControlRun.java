package snagbench.bench.run;

import java.util.Optional;
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
        Judgement judgement = judgedFrom == 0 ? judged : judged.withoutTheFirst(judgedFrom);
        // A guard's trip is what was asked there: the script did not pass.
        return control.role() == Role.INHIBITED && isStoppedByAGuard(judgement)
                ? judgement.as(Verdict.FAIL)
                : judgement;
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
}
