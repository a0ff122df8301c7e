package snagbench.bench.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.evidence.ClaimOutcome;
import snagbench.bench.evidence.Percent;
import snagbench.bench.evidence.Repeats;
import snagbench.bench.evidence.TimeSummary;
import snagbench.bench.script.Claim;

/** What repeats show together, in words short enough for the cells of a table. */
public final class RepeatFigures {
    private RepeatFigures() {}

    /**
     * How many passed.
     *
     * @param repeats of a script
     * @return such as "21 of 22", with the number planned where not all were run
     */
    public static String passed(Repeats repeats) {
        return repeats.passes() + " of " + repeats.runs()
                + (repeats.runs() < repeats.planned() ? " (" + repeats.planned() + " were planned)" : "");
    }

    /**
     * What the count says of all such runs: the exact lower bound.
     *
     * @param repeats of a script
     * @return such as "at least 90.0 % would pass, at 90 % confidence"; "nothing" where none was run
     */
    public static String shown(Repeats repeats) {
        return repeats.bound()
                .map(bound -> "at least " + Percent.atLeast(bound.lower()) + " would pass, at "
                        + Percent.of(bound.confidence()) + " confidence")
                .orElse("nothing");
    }

    /**
     * What was to be shown.
     *
     * @param claim of a script
     * @return such as "90 % at 90 % confidence"
     */
    public static String wanted(Claim claim) {
        String allowed = claim.failuresAllowed() == 0
                ? ""
                : ", " + claim.failuresAllowed() + (claim.failuresAllowed() == 1 ? " failure" : " failures")
                        + " allowed";
        return Percent.of(claim.reliability()) + " at " + Percent.of(claim.confidence()) + " confidence" + allowed;
    }

    /**
     * What came of a claim, in a word or three.
     *
     * @param standing what came of it
     * @return such as "not met"
     */
    public static String word(ClaimOutcome.Standing standing) {
        return switch (standing) {
            case MET -> "met";
            case NOT_MET -> "not met";
            case OUT_OF_REACH -> "out of reach";
        };
    }

    /**
     * A time over the repeats: median, worst, and the bound below which so many of all such times lie.
     *
     * @param time empty where it never came
     * @return a part a line
     */
    public static List<String> time(Optional<TimeSummary> time) {
        if (time.isEmpty()) {
            return List.of("-");
        }
        TimeSummary summary = time.get();
        List<String> parts = new ArrayList<>();
        parts.add(
                summary.medianMicros().isPresent()
                        ? "median " + Figures.millis(summary.medianMicros())
                        : "no median: it came in less than half of the runs");
        parts.add("worst " + Figures.millis(summary.worstMicros()));
        if (summary.seen() < summary.runs()) {
            parts.add("did not come in " + (summary.runs() - summary.seen()) + " of " + summary.runs());
        }
        parts.add(summary.bound()
                .map(bound -> "at least " + Percent.of(bound.share()) + " take no longer than "
                        + Figures.millis(bound.micros()) + ", at " + Percent.atLeast(bound.confidence()) + " confidence"
                        + (bound.isEnough() ? "" : " (more repeats would give more)"))
                .orElse("no bound: it came too seldom"));
        return parts;
    }
}
