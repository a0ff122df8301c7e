package snagbench.bench.report.sheet;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.OptionalLong;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.Family;
import snagbench.bench.report.Figures;
import snagbench.bench.report.PlainText;
import snagbench.bench.run.ScriptResult;

/** Margin over the range of what a file varies: a dot for each run, a cross where it did not pass, and the limit as a line. */
final class MarginChart {
    private static final int WIDTH = 960;
    private static final int HEIGHT = 190;
    private static final int LEFT = 110;
    private static final int RIGHT = 60;
    private static final int TOP = 16;
    private static final int BOTTOM = 36;
    private static final int MOST_LABELS = 8;
    private static final int LABEL = 14;

    private final List<ScriptResult> members;
    private final long least;
    private final long greatest;

    private MarginChart(List<ScriptResult> members) {
        this.members = members;
        long low = 0;
        long high = 1;
        for (ScriptResult one : members) {
            OptionalLong margin = Family.marginOf(one);
            low = Math.min(low, margin.orElse(0));
            high = Math.max(high, margin.orElse(0));
        }
        least = low;
        greatest = high;
    }

    static void draw(Markup out, Family family, String title) {
        new MarginChart(family.members()).draw(out, title);
    }

    private void draw(Markup out, String title) {
        out.open("svg", "viewBox", "0 0 " + WIDTH + " " + HEIGHT, "role", "img", "aria-label", title);
        level(out, 0, "limit", "the limit");
        level(out, greatest, "base", Figures.margin(OptionalLong.of(greatest)));
        if (least < 0) {
            level(out, least, "base", Figures.margin(OptionalLong.of(least)));
        }
        int every = Math.max(1, (members.size() + MOST_LABELS - 1) / MOST_LABELS);
        for (int i = 0; i < members.size(); i++) {
            ScriptResult one = members.get(i);
            boolean passed = one.judgement().verdict() == Verdict.PASS;
            OptionalLong margin = Family.marginOf(one);
            String setting = one.variant().map(ScriptResult.Variation::setting).orElse("");
            out.open("g");
            out.leaf(
                    "text",
                    passed ? "\u25cf" : "\u2715",
                    "class",
                    passed ? "met" : "missed",
                    "x",
                    figure(x(i)),
                    "y",
                    figure(y(margin.orElse(0)) + 5));
            out.leaf("title", setting + ": " + one.judgement().verdict().word() + ", margin " + Figures.margin(margin));
            out.close();
            if (i % every == 0) {
                out.leaf(
                        "text",
                        PlainText.brief(setting, LABEL),
                        "class",
                        "mark",
                        "x",
                        figure(x(i)),
                        "y",
                        Integer.toString(HEIGHT - 8));
            }
        }
        out.closeLine();
    }

    private void level(Markup out, long margin, String kind, String label) {
        String at = figure(y(margin));
        out.empty("line", "class", kind, "x1", "" + LEFT, "x2", "" + (WIDTH - RIGHT), "y1", at, "y2", at);
        out.leaf("text", label, "class", "scale", "x", "" + (LEFT - 6), "y", figure(y(margin) + 4));
    }

    private double x(int place) {
        double room = WIDTH - LEFT - RIGHT - 40;
        return LEFT + 20 + (members.size() == 1 ? room / 2 : place * room / (members.size() - 1));
    }

    private double y(long margin) {
        return TOP + (double) (greatest - margin) * (HEIGHT - TOP - BOTTOM) / (greatest - least);
    }

    private static String figure(double number) {
        return new BigDecimal(number).setScale(1, RoundingMode.HALF_EVEN).toPlainString();
    }
}
