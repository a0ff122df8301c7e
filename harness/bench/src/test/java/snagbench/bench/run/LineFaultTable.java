package snagbench.bench.run;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import snagbench.bench.run.LineFaultCampaign.Kind;
import snagbench.bench.run.LineFaultCampaign.Outcome;
import snagbench.bench.run.LineFaultCampaign.Tally;

/** The table of docs/lines-that-lose-bytes.md: a row for each rate, shares in percent. */
final class LineFaultTable {
    private static final int NO_SHARES = 2;

    private LineFaultTable() {}

    /** The lines of the table, in Markdown. */
    static List<String> of(Tally tally) {
        List<String> titles = new ArrayList<>(List.of("bytes struck", "runs"));
        Arrays.stream(Outcome.values()).map(Outcome::title).forEach(titles::add);
        Arrays.stream(Kind.values())
                .map(kind -> "inconclusive with " + kind.title())
                .forEach(titles::add);
        List<String> lines = new ArrayList<>();
        lines.add(row(titles));
        lines.add("|" + " ---: |".repeat(titles.size()));
        for (double rate : LineFaultCampaign.RATES) {
            List<String> cells = new ArrayList<>();
            cells.add(new BigDecimal(100 * rate).round(new MathContext(1)).toPlainString() + " %");
            cells.add(Integer.toString(tally.runs(rate)));
            for (Outcome outcome : Outcome.values()) {
                cells.add(percent(tally.count(rate, outcome), tally.runs(rate)));
            }
            for (Kind kind : Kind.values()) {
                cells.add(percent(tally.count(rate, kind, Outcome.INCONCLUSIVE), tally.runs(rate, kind)));
            }
            lines.add(row(cells));
        }
        return lines;
    }

    private static String row(List<String> cells) {
        return "| " + String.join(" | ", cells) + " |";
    }

    private static String percent(int part, int whole) {
        return String.format(Locale.ROOT, "%.1f", 100.0 * part / whole);
    }

    /** Whether two tables have the same rows, with shares that differ by no more than so many percent points. */
    static boolean areAlike(List<String> one, List<String> other, double points) {
        if (one.size() != other.size() || !one.get(0).equals(other.get(0))) {
            return false;
        }
        for (int i = NO_SHARES; i < one.size(); i++) {
            String[] ours = one.get(i).split(" *\\| *", -1);
            String[] theirs = other.get(i).split(" *\\| *", -1);
            if (ours.length != theirs.length || !ours[1].equals(theirs[1])) {
                return false;
            }
            for (int cell = 1 + NO_SHARES; cell < ours.length - 1; cell++) {
                if (Math.abs(Double.parseDouble(ours[cell]) - Double.parseDouble(theirs[cell])) > points) {
                    return false;
                }
            }
        }
        return true;
    }
}
