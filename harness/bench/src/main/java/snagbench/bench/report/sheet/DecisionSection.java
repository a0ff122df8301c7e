package snagbench.bench.report.sheet;

import java.util.ArrayList;
import java.util.List;
import snagbench.bench.report.Figures;
import snagbench.bench.report.register.AnswerCheck;
import snagbench.bench.report.register.DecisionSheet;
import snagbench.bench.report.register.DecisionTable;
import snagbench.bench.report.register.DecisionText;

/** The register's symptoms side by side: what two fail-safes claim, what none answers, and what the traces say of both. */
final class DecisionSection {
    private final Markup out;
    private final DecisionTable table;
    private final AnswerCheck check;

    DecisionSection(Markup out, DecisionSheet sheet) {
        this.out = out;
        this.table = sheet.table();
        this.check = sheet.check();
    }

    /** In place of a table that nobody asked for yet. */
    static void writeHowToMakeIt(Markup out) {
        open(out);
        out.open("p")
                .text("Not made yet. With the folder of this page for RUN, ")
                .leaf("code", "snagbench report RUN --decision-table")
                .text(
                        " lays the register's symptoms side by side, holds them against the traces, and makes this page again.")
                .close();
        out.closeLine();
    }

    private static void open(Markup out) {
        out.open("section", "aria-labelledby", "decisions");
        out.leaf("h2", "Decision table", "id", "decisions", "tabindex", "-1");
    }

    void write() {
        open(out);
        out.leaf(
                "p",
                "Which readings two fail-safes claim, and which none answers though little lacks: from the register as it was"
                        + " when this was made, on the channels' own steps, and whatever the machine can reach. Of several"
                        + " regions the first is shown; "
                        + DecisionSheet.FILE_NAME + " has all.",
                "class",
                "small");
        overlaps();
        holes(
                DecisionTable.Kind.BETWEEN,
                "Between two fail-safes, answered by none",
                "One channel a little otherwise, and either would answer.");
        holes(
                DecisionTable.Kind.BESIDE,
                "Beside one fail-safe, answered by none",
                "One channel otherwise, and it would answer. Much of this is as it should be.");
        holes(
                DecisionTable.Kind.OTHER_STEP,
                "The same in other steps, answered by none",
                "Another step, and it would answer. Much of this is as it should be.");
        leftOut();
        answers();
        findings();
        together();
        out.closeLine();
    }

    private void overlaps() {
        out.leaf("h3", "Claimed by two, with different responses");
        List<DecisionTable.Overlap> undecided = table.undecided();
        if (undecided.isEmpty()) {
            out.leaf(
                    "p",
                    table.overlaps().isEmpty()
                            ? "Nothing is claimed by two."
                            : "Of what two claim, the register's order says in each case which of them answers.");
        } else {
            out.open("p", "class", "warning")
                    .text("The register does not say which of the two answers: " + undecided.size() + " of "
                            + table.overlaps().size() + ".")
                    .closeLine();
            overlaps("Claimed by two, and not decided", undecided);
        }
        List<DecisionTable.Overlap> decided =
                table.overlaps().stream().filter(one -> one.first().isPresent()).toList();
        if (!decided.isEmpty()) {
            out.open("details").leaf("summary", "Decided by the register's order: " + decided.size());
            overlaps("Claimed by two, and decided", decided);
            out.closeLine();
        }
    }

    private void overlaps(String name, List<DecisionTable.Overlap> overlaps) {
        Tables.open(out, name, "Fail-safes", "Answers first", "In steps", "Where", "Such as");
        for (DecisionTable.Overlap one : overlaps) {
            out.open("tr").open("th", "scope", "row");
            out.names(one.failSafes(), " and ").close();
            out.open("td").name(one.first().orElse("not decided")).close();
            region(one.regions().get(0), one.regions().size());
            out.closeLine();
        }
        Tables.close(out);
    }

    private void holes(DecisionTable.Kind kind, String title, String why) {
        List<Integer> places = new ArrayList<>();
        List<String> nominal = new ArrayList<>();
        for (int i = 0; i < table.holes().size(); i++) {
            DecisionTable.Hole hole = table.holes().get(i);
            if (hole.kind() == kind && check.holes().get(i).nominalTicks() > 0) {
                nominal.add(names(hole));
            } else if (hole.kind() == kind) {
                places.add(i);
            }
        }
        if (places.isEmpty() && nominal.isEmpty()) {
            return;
        }
        out.leaf("h3", title);
        out.leaf("p", why, "class", "small");
        if (!places.isEmpty()) {
            // What is mostly as it should be does not push away what is not.
            boolean folded = kind != DecisionTable.Kind.BETWEEN;
            if (folded) {
                out.open("details").leaf("summary", "All in figures: " + places.size());
            }
            Tables.open(out, title, "Fail-safes", "But for", "In steps", "Where", "Such as", "In these traces");
            places.forEach(place -> hole(table.holes().get(place), check.holes().get(place)));
            Tables.close(out);
            if (folded) {
                out.closeLine();
            }
        }
        if (!nominal.isEmpty()) {
            out.open("p")
                    .text("Nominal runs go through these too, so they are as it should be: ")
                    .name(String.join("; ", nominal))
                    .text(".")
                    .closeLine();
        }
    }

    private static String names(DecisionTable.Hole hole) {
        String names = String.join(" and ", hole.failSafes());
        return hole.kind() == DecisionTable.Kind.OTHER_STEP ? names : names + ", but for " + hole.channel();
    }

    private void hole(DecisionTable.Hole hole, AnswerCheck.Met met) {
        boolean otherStep = hole.kind() == DecisionTable.Kind.OTHER_STEP;
        out.open("tr").open("th", "scope", "row");
        out.names(hole.failSafes(), " and ").close();
        out.open("td").name(otherStep ? "the step" : hole.channel()).close();
        region(
                otherStep ? DecisionText.allSteps(hole) : hole.regions().get(0),
                otherStep ? 1 : hole.regions().size());
        out.open("td").name(DecisionText.words(met)).close().closeLine();
    }

    private void region(DecisionTable.Region region, int of) {
        out.open("td").name(String.join(", ", region.steps())).close();
        out.open("td").name(DecisionText.show(region.where()));
        if (of > 1) {
            out.text(" ").leaf("span", "the first of " + of + " regions", "class", "small");
        }
        out.close();
        out.open("td").name(DecisionText.show(region.example())).close();
    }

    private void leftOut() {
        if (table.leftOut().isEmpty()) {
            return;
        }
        out.leaf("h3", "Not in the table").open("ul");
        table.leftOut().forEach(one -> out.open("li").name(one).close());
        out.closeLine();
    }

    private void answers() {
        out.leaf("h3", "Laid against " + check.traces() + (check.traces() == 1 ? " trace" : " traces"));
        Tables.open(
                out,
                "Answers and symptoms in the traces",
                "Fail-safe",
                "Answers",
                "Without its symptom",
                "For what no channel shows",
                "Symptom there for its time",
                "Answered",
                "Another answered",
                "None answered",
                "Left open");
        for (AnswerCheck.Counts one : check.failSafes()) {
            out.open("tr").open("th", "scope", "row").name(one.failSafe()).close();
            figure(one.answers());
            figure(count(one, AnswerCheck.Kind.WITHOUT_SYMPTOM));
            figure(one.beside());
            figure(one.symptoms());
            figure(one.answered());
            figure(one.gaveWay());
            figure(count(one, AnswerCheck.Kind.WITHOUT_ANSWER));
            figure(one.open());
            out.closeLine();
        }
        Tables.close(out);
    }

    private void figure(long count) {
        out.leaf("td", Long.toString(count), "class", "figure");
    }

    private long count(AnswerCheck.Counts counts, AnswerCheck.Kind kind) {
        return check.findings().stream()
                .filter(one -> one.kind() == kind && one.failSafe().equals(counts.failSafe()))
                .count();
    }

    private void findings() {
        out.leaf("h3", "Where register and control code do not agree");
        if (check.findings().isEmpty()) {
            out.leaf(
                    "p",
                    check.traces() == 0
                            ? "No trace was there to look at."
                            : "Nowhere in these traces. What they do not show may still be otherwise.");
            return;
        }
        Tables.open(
                out, "Where register and control code do not agree", "Fail-safe", "What", "Trace", "When", "Readings");
        for (AnswerCheck.Finding one : check.findings()) {
            out.open("tr").open("th", "scope", "row").name(one.failSafe()).close();
            out.open("td").name(DecisionText.words(one)).close();
            out.open("td").name(one.trace()).close();
            out.leaf("td", Figures.millis(one.micros()) + " after arming", "class", "figure");
            out.open("td").name(DecisionText.show(one.readings())).close().closeLine();
        }
        Tables.close(out);
    }

    private void together() {
        if (check.together().isEmpty()) {
            return;
        }
        out.leaf("h3", "Symptoms that were there together");
        Tables.open(out, "Symptoms that were there together", "Answered", "Had a symptom too", "Times");
        for (AnswerCheck.Together one : check.together()) {
            out.open("tr").open("th", "scope", "row").name(one.answered()).close();
            out.open("td").name(String.join(", ", one.others())).close();
            figure(one.times());
            out.closeLine();
        }
        Tables.close(out);
    }
}
