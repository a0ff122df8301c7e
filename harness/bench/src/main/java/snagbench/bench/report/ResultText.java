package snagbench.bench.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import snagbench.bench.judge.Fact;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Split;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.RunEnd;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;

/** Results as plain lines of text: a line for each script, facts for each that did not pass, and a summary. */
public final class ResultText {
    private static final String ROW = "%-13s %11s %12s %12s %14s   %s";
    private static final int MOST_NAMED = 20;

    private ResultText() {}

    /**
     * The line above the rows.
     *
     * @return column heads
     */
    public static String heads() {
        return String.format(Locale.ROOT, ROW, "verdict", "detected", "recovered", "margin", "in value", "script");
    }

    /**
     * The line of a script.
     *
     * @param result what came of it
     * @return one line
     */
    public static String row(ScriptResult result) {
        return row(result, result.repeat() + " of " + result.repeats());
    }

    private static String row(ScriptResult result, String which) {
        String repeat = result.repeats() == 1 ? "" : " (" + which + ")";
        String failSafes = result.failSafes().isEmpty() ? "" : ", " + String.join(" ", result.failSafes());
        return String.format(
                Locale.ROOT,
                ROW,
                result.judgement().verdict().word(),
                Figures.millis(result.judgement().detectionMicros()),
                Figures.millis(result.judgement().recoveryMicros()),
                Figures.margin(result.judgement().marginMicros()),
                Figures.value(result.judgement().valueMargins()),
                name(result) + repeat + failSafes + ", " + evidence(result));
    }

    private static String name(ScriptResult result) {
        return result.script()
                + result.variant().map(variant -> ", " + variant.setting()).orElse("");
    }

    /**
     * The lines of what belongs together: one for a script that is alone; for a file that varies something, one with its worst
     * case, and below it the picture of margin over the range.
     *
     * @param family of one or more results
     * @return lines
     */
    public static List<String> rows(Family family) {
        if (!family.varies()) {
            ScriptResult first = family.members().get(0);
            ScriptResult last = family.members().get(family.members().size() - 1);
            String from = first.equals(last) ? "" : first.repeat() + " to ";
            return List.of(row(first, from + last.repeat() + " of " + last.repeats()));
        }
        List<String> lines = new ArrayList<>();
        ScriptResult worst = family.worst();
        String failSafes = worst.failSafes().isEmpty() ? "" : ", " + String.join(" ", worst.failSafes());
        lines.add(String.format(
                Locale.ROOT,
                ROW,
                worst.judgement().verdict().word(),
                Figures.millis(family.greatest(Judgement::detectionMicros)),
                Figures.millis(family.greatest(Judgement::recoveryMicros)),
                Figures.margin(family.leastMargin()),
                Figures.value(family.leastValues()),
                worst.script() + failSafes + ", " + evidence(worst) + ", worst of "
                        + family.members().size() + ": " + family.counts()));
        lines.addAll(MarginPicture.of(family));
        return lines;
    }

    /**
     * What is to be known of what belongs together: of a file that varies something, that of the worst case, and which others
     * did not pass either.
     *
     * @param family of one or more results
     * @return lines; none for a plain pass
     */
    public static List<String> details(Family family) {
        if (!family.varies()) {
            return details(family.members().get(0));
        }
        ScriptResult worst = family.worst();
        List<String> lines = new ArrayList<>(details(worst));
        List<ScriptResult> others =
                family.notPassed().stream().filter(one -> !one.equals(worst)).toList();
        if (!others.isEmpty()) {
            String named = others.stream()
                    .limit(MOST_NAMED)
                    .map(one ->
                            one.variant().map(ScriptResult.Variation::setting).orElse("") + " ("
                                    + one.judgement().verdict().word() + ")")
                    .collect(Collectors.joining("; "));
            String more = others.size() > MOST_NAMED ? "; and " + (others.size() - MOST_NAMED) + " more" : "";
            lines.add("  that is the worst case; not passed either: " + named + more);
        }
        return lines;
    }

    private static String evidence(ScriptResult result) {
        return switch (result.evidence()) {
            case TOLD -> "told";
            case PHYSICAL -> "physical";
            case TOLD_AND_PHYSICAL -> "told and physical";
        };
    }

    /**
     * What is to be known of a script that did not pass; for one that did, whatever reasons its judgement gives.
     *
     * @param result what came of it
     * @return lines; none for a plain pass
     */
    public static List<String> details(ScriptResult result) {
        List<String> lines = new ArrayList<>();
        Verdict verdict = result.judgement().verdict();
        if (verdict == Verdict.PASS) {
            result.judgement().reasons().forEach(reason -> lines.add("note: " + name(result) + ": " + reason));
            result.judgement().injections().stream()
                    .filter(one -> one.strikes() > 1)
                    .forEach(one -> lines.add(
                            "note: " + name(result) + ": " + one.name() + " struck " + one.strikes() + " times"));
            return lines;
        }
        String trace = result.trace().map(file -> ", trace " + file).orElse("");
        lines.add(
                verdict.word() + ": " + name(result) + " (" + result.place() + ", seed " + result.seed() + trace + ")");
        result.judgement().reasons().forEach(reason -> lines.add("  " + reason));
        lines.addAll(facts(result.judgement()));
        for (Finding finding : result.judgement().findings()) {
            if (finding.verdict() != Verdict.PASS) {
                lines.add("  " + finding.verdict().word() + ": " + finding.name());
                lines.addAll(facts(finding.facts()));
            }
        }
        return lines;
    }

    /** What is known of the whole script, whichever finding decided. */
    private static List<String> facts(Judgement judgement) {
        List<String> lines = new ArrayList<>();
        judgement.injections().forEach(one -> lines.add("  " + one.name() + ": " + Sentences.injection(one)));
        Split split = judgement.split();
        if (!split.equals(Split.NONE)) {
            lines.add("  detected " + Figures.reached(split.detected()) + ", response begun "
                    + Figures.reached(split.begun()) + ", recovered " + Figures.reached(split.recovered()));
        }
        if (!judgement.valueMargins().isEmpty()) {
            lines.add("  in value: "
                    + judgement.valueMargins().stream()
                            .map(one -> one.channel() + " " + one.show())
                            .collect(Collectors.joining(", ")));
        }
        judgement
                .settledTick()
                .ifPresent(tick -> lines.add("  settled by tick " + tick + ": nothing behind it could mend it"));
        return lines;
    }

    private static List<String> facts(List<Fact> facts) {
        int widest = facts.stream()
                .map(fact -> fact.label().length())
                .max(Comparator.naturalOrder())
                .orElse(0);
        return facts.stream()
                .map(fact ->
                        "    " + fact.label() + " ".repeat(widest - fact.label().length()) + " : " + fact.text())
                .toList();
    }

    /**
     * The end of a run: how many came to which verdict, and what was not run.
     *
     * @param run as its journal tells it
     * @return lines
     */
    public static List<String> summary(RunRecord run) {
        List<String> lines = new ArrayList<>();
        Summary summary = Summary.of(run);
        if (run.end().isEmpty()) {
            lines.add("The run was cut short: its journal has no end.");
        }
        run.end()
                .filter(end -> end.cause() != RunEnd.Cause.COMPLETE)
                .ifPresent(end -> lines.add("The run went no further: " + end.reason() + "."));
        List<String> notRun = run.notRun();
        notRun.stream().limit(MOST_NAMED).forEach(title -> lines.add("not run: " + title));
        if (notRun.size() > MOST_NAMED) {
            lines.add("not run: and " + (notRun.size() - MOST_NAMED) + " more");
        }
        lines.addAll(ChecksText.lines(run));
        lines.addAll(RepeatText.lines(run));
        lines.add(summary.words() + "; " + Figures.seconds(summary.rigMicros()) + " on the rig's clock");
        return lines;
    }
}
