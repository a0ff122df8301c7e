package snagbench.bench.evidence;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Function;
import java.util.stream.Collectors;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.Claim;

/**
 * What several runs of the same thing show together.
 *
 * @param planned how many were planned
 * @param verdicts what those that were run came to, in their order
 * @param passes how many passed: nothing else counts as a success
 * @param fails how many failed
 * @param others how many were inconclusive, or ended by an error; they are not left out of the count, since what kept them from
 *     being judged may hang together with what would have failed
 * @param inconsistent whether the very same script both passed and failed
 * @param bound what the count says about all such runs; empty where none was run
 * @param claim what came of the claim, where there was one
 * @param detection detection times; empty where there was none
 * @param recovery recovery times; empty where there was none
 * @param passesByOrder whether what did not pass stands at one end; empty where all came to the same, and where a script
 *     varies its moment: that and the order cannot be told apart
 * @param recoveryByOrder whether recovery took longer, or less long, in the later half; empty for few repeats, and where a
 *     script varies its moment
 * @param warnings why the repeats may not be independent, a sentence each
 */
public record Repeats(
        int planned,
        List<Verdict> verdicts,
        int passes,
        int fails,
        int others,
        boolean inconsistent,
        Optional<Bound> bound,
        Optional<ClaimOutcome> claim,
        Optional<TimeSummary> detection,
        Optional<TimeSummary> recovery,
        Optional<Trend> passesByOrder,
        Optional<Trend> recoveryByOrder,
        List<String> warnings) {
    /** Share and confidence of bounds where nothing is claimed: common practice, no source. */
    public static final double USUAL_SHARE = 0.9;

    /** Copies the lists. */
    public Repeats {
        verdicts = List.copyOf(verdicts);
        warnings = List.copyOf(warnings);
    }

    /**
     * Puts runs of the same thing together.
     *
     * @param attempts those that are known of, in their order; the others of the plan were not run
     * @param planned how many were planned
     * @param claim what they were to show, if anything
     * @param circumstances how they came about
     * @return what they show
     */
    public static Repeats of(List<Attempt> attempts, int planned, Optional<Claim> claim, Circumstances circumstances) {
        List<Attempt> run = attempts.stream().filter(Attempt::wasRun).toList();
        List<Verdict> verdicts = run.stream().map(Attempt::verdict).toList();
        int passes = count(verdicts, Verdict.PASS);
        int fails = count(verdicts, Verdict.FAIL);
        double share = claim.map(Claim::reliability).orElse(USUAL_SHARE);
        double confidence = claim.map(Claim::confidence).orElse(USUAL_SHARE);
        // Moments that are varied in their order, and the order itself, cannot be told apart.
        boolean oneSetting = run.stream().map(Attempt::setting).distinct().count() <= 1;
        Optional<Trend> passesByOrder =
                oneSetting ? Trend.ofPasses(run.stream().map(Attempt::passed).toList()) : Optional.empty();
        Optional<Trend> recoveryByOrder =
                oneSetting ? Trend.ofTimes(times(run, Attempt::recoveryMicros)) : Optional.empty();
        return new Repeats(
                planned,
                verdicts,
                passes,
                fails,
                run.size() - passes - fails,
                isInconsistent(run),
                run.isEmpty() ? Optional.empty() : Optional.of(Bound.of(passes, run.size(), confidence)),
                claim.map(what -> ClaimOutcome.of(what, planned, run.size(), run.size() - passes)),
                TimeSummary.of(times(run, Attempt::detectionMicros), share, confidence),
                TimeSummary.of(times(run, Attempt::recoveryMicros), share, confidence),
                passesByOrder,
                recoveryByOrder,
                Independence.warnings(run, circumstances, passesByOrder, recoveryByOrder));
    }

    private static boolean isInconsistent(List<Attempt> run) {
        Map<String, List<Attempt>> bySetting = run.stream().collect(Collectors.groupingBy(Attempt::setting));
        return bySetting.values().stream()
                .anyMatch(same -> same.stream().anyMatch(Attempt::passed)
                        && same.stream().anyMatch(one -> one.verdict() == Verdict.FAIL));
    }

    private static int count(List<Verdict> verdicts, Verdict which) {
        return (int) verdicts.stream().filter(which::equals).count();
    }

    private static List<OptionalLong> times(List<Attempt> run, Function<Attempt, OptionalLong> time) {
        return run.stream().map(time).toList();
    }

    /**
     * How many runs were made.
     *
     * @return passes and all others
     */
    public int runs() {
        return verdicts.size();
    }

    /**
     * The count and what it says, in a sentence.
     *
     * @return such as "22 of 22 passed: at least 90.0 % of all such runs would, at 90 % confidence"
     */
    public String words() {
        if (bound.isEmpty()) {
            return "none of " + planned + " was run";
        }
        String ran = passes + " of " + runs() + " passed"
                + (runs() < planned ? ", " + (planned - runs()) + " of " + planned + " were not run" : "");
        return ran + ": at least " + Percent.atLeast(bound.get().lower()) + " of all such runs would, at "
                + Percent.of(bound.get().confidence()) + " confidence"
                + (inconsistent ? "; inconsistent: it both passes and fails" : "");
    }
}
