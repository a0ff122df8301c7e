package snagbench.bench.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.evidence.Percent;
import snagbench.bench.evidence.Repeats;
import snagbench.bench.evidence.TimeSummary;
import snagbench.bench.run.Conclusion;
import snagbench.bench.run.Conclusions;
import snagbench.bench.run.RunRecord;

/** What repeats show together, as plain lines of text. */
public final class RepeatText {
    private RepeatText() {}

    /**
     * What the repeats of a run show.
     *
     * @param run as its journal tells it
     * @return lines for each script that was repeated; none where nothing was
     */
    public static List<String> lines(RunRecord run) {
        List<String> lines = new ArrayList<>();
        for (Conclusion row : Conclusions.of(run).rows()) {
            row.repeats().ifPresent(repeats -> lines.addAll(lines(row, repeats)));
        }
        return lines;
    }

    private static List<String> lines(Conclusion row, Repeats repeats) {
        List<String> lines = new ArrayList<>();
        lines.add("repeats: " + row.script() + ": " + repeats.words());
        repeats.claim().ifPresent(claim -> lines.add("  " + claim.words()));
        time("detected", repeats.detection()).ifPresent(lines::add);
        time("recovered", repeats.recovery()).ifPresent(lines::add);
        repeats.warnings().forEach(warning -> lines.add("  warning: " + warning));
        return lines;
    }

    private static Optional<String> time(String what, Optional<TimeSummary> summary) {
        return summary.map(time -> "  " + what + " after "
                + (time.medianMicros().isPresent() ? Figures.millis(time.medianMicros()) : "no median:")
                + (time.medianMicros().isPresent() ? " (median), " : " it came in less than half of the runs; ")
                + Figures.millis(time.worstMicros()) + " at worst"
                + (time.seen() < time.runs()
                        ? ", and in " + (time.runs() - time.seen()) + " of " + time.runs() + " not in time"
                        : "")
                + "; " + bound(time));
    }

    private static String bound(TimeSummary time) {
        if (time.bound().isEmpty()) {
            return "no bound for the runs to come: too many of these were not in time";
        }
        TimeSummary.ToleranceBound bound = time.bound().get();
        return "at least " + Percent.of(bound.share()) + " of all such runs take no longer than "
                + Figures.millis(bound.micros()) + ", at " + Percent.atLeast(bound.confidence()) + " confidence"
                + (bound.isEnough() ? "" : " (more repeats would give more)");
    }
}
