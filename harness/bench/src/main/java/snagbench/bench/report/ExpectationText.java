package snagbench.bench.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.ValueMargin;
import snagbench.bench.run.ScriptResult;

/** What each expectation of a script came to, as plain lines of text that stand below the script's own. */
public final class ExpectationText {
    private ExpectationText() {}

    /**
     * One line for each that was judged.
     *
     * @param result what came of the script
     * @return lines
     */
    public static List<String> lines(ScriptResult result) {
        List<String> lines = new ArrayList<>();
        for (Finding finding : result.judgement().findings()) {
            // The margin stands below the script's.
            lines.add(String.format(
                    Locale.ROOT, "  %-13s %35s     %s", finding.verdict().word(), margin(finding), finding.name()));
        }
        return lines;
    }

    /** In time, in value, or both. */
    private static String margin(Finding finding) {
        String time = finding.marginMicros().isPresent() ? Figures.margin(finding.marginMicros()) : "";
        String value = finding.marginValue().map(ValueMargin::show).orElse("");
        String both = time.isEmpty() || value.isEmpty() ? time + value : time + ", " + value;
        return both.isEmpty() ? "-" : both;
    }
}
