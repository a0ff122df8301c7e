package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** The decision table as plain lines. */
public final class DecisionText {
    private static final double MICROS_PER_SECOND = 1e6;

    private final DecisionTable table;
    private final Optional<AnswerCheck> check;
    private final List<String> lines = new ArrayList<>();

    private DecisionText(DecisionTable table, Optional<AnswerCheck> check) {
        this.table = table;
        this.check = check;
    }

    /**
     * The table alone.
     *
     * @param table worked out
     * @return lines
     */
    public static List<String> lines(DecisionTable table) {
        return new DecisionText(table, Optional.empty()).all();
    }

    /**
     * The table, and what the traces say of it.
     *
     * @param sheet both
     * @return lines
     */
    public static List<String> lines(DecisionSheet sheet) {
        return new DecisionText(sheet.table(), Optional.of(sheet.check())).all();
    }

    private List<String> all() {
        lines.add("Symptoms that two fail-safes claim, with different responses: "
                + pairs(table.overlaps().size()));
        table.undecided().forEach(this::overlap);
        settled();
        holes(
                DecisionTable.Kind.BETWEEN,
                "Between two fail-safes, answered by none (one channel a little otherwise, and either would answer):");
        holes(
                DecisionTable.Kind.BESIDE,
                "Beside one fail-safe, answered by none (one channel otherwise; much of this is as it should be):");
        holes(
                DecisionTable.Kind.OTHER_STEP,
                "The same in other steps, answered by none (much of this is as it should be):");
        if (!table.leftOut().isEmpty()) {
            lines.add("Not in the table:");
            table.leftOut().forEach(one -> lines.add("  " + one));
        }
        check.ifPresent(this::answers);
        return lines;
    }

    private static String pairs(int count) {
        return count == 0 ? "none" : count + (count == 1 ? " pair" : " pairs");
    }

    private void overlap(DecisionTable.Overlap overlap) {
        lines.add("  " + String.join(" and ", overlap.failSafes()) + more(overlap.regions()));
        region(overlap.regions().get(0));
    }

    private void settled() {
        List<String> decided = table.overlaps().stream()
                .filter(one -> one.first().isPresent())
                .map(one -> one.first().orElse("") + " before "
                        + one.failSafes().stream()
                                .filter(name -> !name.equals(one.first().orElse("")))
                                .collect(Collectors.joining()))
                .toList();
        if (!decided.isEmpty()) {
            lines.add("  decided by the register's \"order\": " + String.join(", ", decided));
        }
    }

    private void holes(DecisionTable.Kind kind, String title) {
        List<String> nominal = new ArrayList<>();
        boolean isTitled = false;
        for (int i = 0; i < table.holes().size(); i++) {
            DecisionTable.Hole hole = table.holes().get(i);
            if (hole.kind() != kind) {
                continue;
            }
            Optional<AnswerCheck.Met> met = met(i);
            boolean isOtherStep = kind == DecisionTable.Kind.OTHER_STEP;
            String names = String.join(" and ", hole.failSafes()) + (isOtherStep ? "" : ", but for " + hole.channel());
            if (met.filter(one -> one.nominalTicks() > 0).isPresent()) {
                nominal.add(names);
                continue;
            }
            if (!isTitled) {
                lines.add(title);
                isTitled = true;
            }
            lines.add("  " + names + more(hole.regions()));
            region(isOtherStep ? allSteps(hole) : hole.regions().get(0));
            met.ifPresent(one -> lines.add("    " + words(one)));
        }
        if (!nominal.isEmpty()) {
            if (!isTitled) {
                lines.add(title);
            }
            lines.add("  nominal runs go through these too: " + String.join("; ", nominal));
        }
    }

    private Optional<AnswerCheck.Met> met(int hole) {
        return check.map(one -> one.holes().get(hole));
    }

    /**
     * How often a combination that none answers was met.
     *
     * @param met of a hole
     * @return such as "met in 3 ticks, first: pot slips, 2.315 s"
     */
    public static String words(AnswerCheck.Met met) {
        return met.ticks() == 0
                ? "not met in these traces"
                : "met in " + met.ticks() + (met.ticks() == 1 ? " tick" : " ticks") + ", first: " + met.first();
    }

    private void answers(AnswerCheck found) {
        int answers =
                found.failSafes().stream().mapToInt(AnswerCheck.Counts::answers).sum();
        int beside =
                found.failSafes().stream().mapToInt(AnswerCheck.Counts::beside).sum();
        int symptoms = found.failSafes().stream()
                .mapToInt(AnswerCheck.Counts::symptoms)
                .sum();
        int answered = found.failSafes().stream()
                .mapToInt(AnswerCheck.Counts::answered)
                .sum();
        int gaveWay =
                found.failSafes().stream().mapToInt(AnswerCheck.Counts::gaveWay).sum();
        int open = found.failSafes().stream().mapToInt(AnswerCheck.Counts::open).sum();
        lines.add("Laid against " + found.traces() + (found.traces() == 1 ? " trace: " : " traces: ") + answers
                + " answers, of which " + count(found, AnswerCheck.Kind.WITHOUT_SYMPTOM) + " without the symptom"
                + (beside == 0 ? "" : " (and " + beside + " for what no channel shows)") + "; " + symptoms
                + " times a symptom was there for its time, of which " + answered + " were answered"
                + (gaveWay == 0 ? "" : ", " + gaveWay + " by another fail-safe") + ", "
                + count(found, AnswerCheck.Kind.WITHOUT_ANSWER) + " by none"
                + (open == 0 ? "" : ", " + open + " left open"));
        found.together()
                .forEach(one -> lines.add("  " + one.answered() + " answered where "
                        + String.join(" and ", one.others()) + " had a symptom too: " + one.times()
                        + (one.times() == 1 ? " time" : " times")));
        for (AnswerCheck.Finding one : found.findings()) {
            lines.add(String.format(
                    Locale.ROOT,
                    "  %s, %.3f s: %s%s",
                    one.trace(),
                    one.micros() / MICROS_PER_SECOND,
                    one.failSafe(),
                    " " + words(one)));
            lines.add("    " + show(one.readings()));
        }
    }

    /**
     * What does not agree.
     *
     * @param finding of a trace
     * @return words to stand behind the fail-safe's name
     */
    public static String words(AnswerCheck.Finding finding) {
        return switch (finding.kind()) {
            case WITHOUT_SYMPTOM -> "answered, and none of its conditions had held for its time";
            case WITHOUT_ANSWER -> "did not answer, though its symptom was there for its time";
            case OUT_OF_ORDER -> "answered, though " + finding.other().orElse("") + " stands before it in the order";
        };
    }

    private static long count(AnswerCheck found, AnswerCheck.Kind kind) {
        return found.findings().stream().filter(one -> one.kind() == kind).count();
    }

    /**
     * A region for all, where only the steps differ.
     *
     * @param hole of a table
     * @return the first region, with the steps of all
     */
    public static DecisionTable.Region allSteps(DecisionTable.Hole hole) {
        Set<String> steps = new LinkedHashSet<>();
        hole.regions().forEach(one -> steps.addAll(one.steps()));
        DecisionTable.Region first = hole.regions().get(0);
        return new DecisionTable.Region(List.copyOf(steps), first.where(), first.example());
    }

    private static String more(List<DecisionTable.Region> regions) {
        return regions.size() == 1 ? "" : " (the first of " + regions.size() + " regions)";
    }

    private void region(DecisionTable.Region region) {
        lines.add("    in " + String.join(", ", region.steps()) + ": " + show(region.where()));
        lines.add("    such as " + show(region.example()));
    }

    /**
     * What channels read.
     *
     * @param ranges of a region
     * @return such as "reach.current 0.00 A .. 1.20 A, grip.closed no"
     */
    public static String show(List<DecisionTable.Range> ranges) {
        return ranges.isEmpty()
                ? "anything"
                : ranges.stream().map(DecisionTable.Range::show).collect(Collectors.joining(", "));
    }
}
