package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** The decision table as plain lines. */
public final class DecisionText {
    private DecisionText() {}

    /**
     * All of it.
     *
     * @param table worked out
     * @return lines
     */
    public static List<String> lines(DecisionTable table) {
        List<String> lines = new ArrayList<>();
        List<DecisionTable.Overlap> undecided = table.undecided();
        lines.add("Symptoms that two fail-safes claim, with different responses: "
                + pairs(table.overlaps().size()));
        undecided.forEach(one -> overlap(lines, one));
        settled(lines, table);
        holes(
                lines,
                table.holes(DecisionTable.Kind.BETWEEN),
                "Between two fail-safes, answered by none (one channel a little otherwise, and either would answer):");
        holes(
                lines,
                table.holes(DecisionTable.Kind.BESIDE),
                "Beside one fail-safe, answered by none (one channel otherwise; much of this is as it should be):");
        holes(
                lines,
                table.holes(DecisionTable.Kind.OTHER_STEP),
                "The same in other steps, answered by none (much of this is as it should be):");
        if (!table.leftOut().isEmpty()) {
            lines.add("Not in the table:");
            table.leftOut().forEach(one -> lines.add("  " + one));
        }
        return lines;
    }

    private static String pairs(int count) {
        return count == 0 ? "none" : count + (count == 1 ? " pair" : " pairs");
    }

    private static void overlap(List<String> lines, DecisionTable.Overlap overlap) {
        lines.add("  " + String.join(" and ", overlap.failSafes()) + more(overlap.regions()));
        region(lines, overlap.regions().get(0));
    }

    private static void settled(List<String> lines, DecisionTable table) {
        List<DecisionTable.Overlap> decided =
                table.overlaps().stream().filter(one -> one.first().isPresent()).toList();
        if (!decided.isEmpty()) {
            lines.add("  decided by the register's \"order\": "
                    + decided.stream()
                            .map(one -> one.first().orElse("") + " before "
                                    + one.failSafes().stream()
                                            .filter(name ->
                                                    !one.first().orElse("").equals(name))
                                            .collect(Collectors.joining()))
                            .collect(Collectors.joining(", ")));
        }
    }

    private static void holes(List<String> lines, List<DecisionTable.Hole> holes, String title) {
        if (holes.isEmpty()) {
            return;
        }
        lines.add(title);
        for (DecisionTable.Hole hole : holes) {
            boolean isOtherStep = hole.kind() == DecisionTable.Kind.OTHER_STEP;
            lines.add("  " + String.join(" and ", hole.failSafes()) + (isOtherStep ? "" : ", but for " + hole.channel())
                    + more(hole.regions()));
            region(lines, isOtherStep ? allSteps(hole) : hole.regions().get(0));
        }
    }

    /** The first region, with the steps of all. */
    private static DecisionTable.Region allSteps(DecisionTable.Hole hole) {
        Set<String> steps = new LinkedHashSet<>();
        hole.regions().forEach(one -> steps.addAll(one.steps()));
        DecisionTable.Region first = hole.regions().get(0);
        return new DecisionTable.Region(List.copyOf(steps), first.where(), first.example());
    }

    private static String more(List<DecisionTable.Region> regions) {
        return regions.size() == 1 ? "" : " (the first of " + regions.size() + " regions)";
    }

    private static void region(List<String> lines, DecisionTable.Region region) {
        lines.add("    in " + String.join(", ", region.steps()) + ": " + show(region.where()));
        lines.add("    such as " + show(region.example()));
    }

    private static String show(List<DecisionTable.Range> ranges) {
        return ranges.isEmpty()
                ? "anything"
                : ranges.stream().map(DecisionTable.Range::show).collect(Collectors.joining(", "));
    }
}
