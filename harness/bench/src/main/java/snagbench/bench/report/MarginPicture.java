package snagbench.bench.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalLong;
import snagbench.bench.run.ScriptResult;

/** Margin over the range of what a file varies, as lines of text: a bar to the right of the limit is what is to spare. */
final class MarginPicture {
    private static final int WIDTH = 40;

    private final List<ScriptResult> members;
    private final long least;
    private final long greatest;

    private MarginPicture(List<ScriptResult> members) {
        this.members = members;
        long[] margins = members.stream()
                .map(Family::marginOf)
                .filter(OptionalLong::isPresent)
                .mapToLong(OptionalLong::getAsLong)
                .toArray();
        long low = 0;
        long high = 0;
        for (long margin : margins) {
            low = Math.min(low, margin);
            high = Math.max(high, margin);
        }
        least = low;
        greatest = high;
    }

    static List<String> of(Family family) {
        return new MarginPicture(family.members()).lines();
    }

    private List<String> lines() {
        int widest =
                members.stream().mapToInt(one -> setting(one).length()).max().orElse(0);
        List<String> lines = new ArrayList<>();
        for (ScriptResult one : members) {
            lines.add(String.format(
                            Locale.ROOT,
                            "  %-" + Math.max(1, widest) + "s  %-12s %12s  %s",
                            setting(one),
                            one.judgement().verdict().word(),
                            Figures.margin(Family.marginOf(one)),
                            bar(one))
                    .stripTrailing());
        }
        return lines;
    }

    private static String setting(ScriptResult one) {
        String repeat = one.repeats() == 1 ? "" : " (" + one.repeat() + " of " + one.repeats() + ")";
        return one.variant().map(ScriptResult.Variation::setting).orElse("") + repeat;
    }

    /** Places to the left of the limit. */
    private int left() {
        return (int) Math.min(WIDTH - 1, places(-least));
    }

    /** At least one place for whatever is not nothing, so that a small miss is seen. */
    private long places(long micros) {
        long range = greatest - least;
        if (micros <= 0 || range == 0) {
            return 0;
        }
        return Math.max(1, Math.round((double) micros * (WIDTH - 1) / range));
    }

    private String bar(ScriptResult one) {
        String empty = " ".repeat(left()) + "|";
        if (Family.marginOf(one).isEmpty()) {
            return empty;
        }
        long margin = Family.marginOf(one).getAsLong();
        if (margin < 0) {
            int missed = (int) Math.min(left(), places(-margin));
            return " ".repeat(left() - missed) + "<".repeat(missed) + "|";
        }
        return empty + "=".repeat((int) Math.min(WIDTH, places(margin)));
    }
}
