package snagbench.bench.evidence;

import java.util.OptionalLong;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;

/**
 * One of several runs of the same thing, as far as statistics look at it.
 *
 * @param verdict what it came to; {@link Verdict#NONE} where it was not run
 * @param detectionMicros how long the fail-safe took to answer
 * @param recoveryMicros how long the recovery took
 * @param marginMicros the least margin
 * @param seed with which it ran
 * @param setting what its script's parameters were; empty where it varies none
 */
public record Attempt(
        Verdict verdict,
        OptionalLong detectionMicros,
        OptionalLong recoveryMicros,
        OptionalLong marginMicros,
        int seed,
        String setting) {
    /**
     * Takes what statistics need from a judgement.
     *
     * @param judgement of the run
     * @param verdict what the run is taken for, after its control runs
     * @param seed with which it ran
     * @param setting what its script's parameters were; empty where it varies none
     * @return the attempt
     */
    public static Attempt of(Judgement judgement, Verdict verdict, int seed, String setting) {
        return new Attempt(
                verdict,
                judgement.detectionMicros(),
                judgement.recoveryMicros(),
                judgement.marginMicros(),
                seed,
                setting);
    }

    boolean wasRun() {
        return verdict != Verdict.NONE;
    }

    /** Only a pass counts as one: what was inconclusive, or kept the harness from judging, shows nothing. */
    boolean passed() {
        return verdict == Verdict.PASS;
    }
}
