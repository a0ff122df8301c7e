package snagbench.bench.report.sheet;

import java.util.List;
import java.util.Optional;
import snagbench.bench.evidence.ClaimOutcome;
import snagbench.bench.evidence.Repeats;
import snagbench.bench.evidence.TimeSummary;
import snagbench.bench.report.Family;
import snagbench.bench.report.RepeatFigures;
import snagbench.bench.run.Conclusion;
import snagbench.bench.run.Conclusions;
import snagbench.bench.run.ScriptResult;

/** What the repeats of a script show together, and what came of what was claimed of them. */
final class RepeatSection {
    private final Markup out;
    private final List<Conclusion> rows;
    private final List<Family> families;

    RepeatSection(Markup out, Conclusions conclusions, List<Family> families) {
        this.out = out;
        this.families = families;
        this.rows = conclusions.rows().stream()
                .filter(row -> row.repeats().isPresent())
                .toList();
    }

    /** Whether anything was repeated, or claimed. */
    boolean isEmpty() {
        return rows.isEmpty();
    }

    /** All of them, below the plan's heading. */
    void write() {
        out.leaf("h3", "Repeats and claims", "id", "repeats", "tabindex", "-1");
        out.leaf(
                "p",
                "What so many passes show of all runs that would be made alike: the exact lower bound for a count, and"
                        + " for a time a bound that is one of those seen. Both hold only if the repeats are independent of"
                        + " each other.",
                "class",
                "small");
        Tables.open(
                out,
                "Repeats and claims",
                "Script",
                "Passed",
                "That shows",
                "Claim",
                "Detected after",
                "Recovered after");
        for (int i = 0; i < rows.size(); i++) {
            row(i, rows.get(i));
        }
        Tables.close(out);
        warnings();
    }

    private void row(int place, Conclusion row) {
        Repeats repeats = row.repeats().orElseThrow();
        out.open("tr").open("th", "scope", "row", "id", id(place));
        out.open("a", "href", "#" + sheet(row)).name(row.script()).close();
        out.close();
        out.open("td").text(RepeatFigures.passed(repeats));
        if (row.inconsistent()) {
            out.text(" ").leaf("strong", "inconsistent: it both passed and failed");
        }
        out.close();
        out.leaf("td", RepeatFigures.shown(repeats));
        out.open("td");
        repeats.claim()
                .ifPresentOrElse(
                        claim -> {
                            standing(claim.standing());
                            out.leaf("div", RepeatFigures.wanted(claim.claim()));
                        },
                        () -> out.text("none"));
        out.close();
        time(repeats.detection());
        time(repeats.recovery());
        out.closeLine();
    }

    /** Where the sheet of its first run is: that of the worst of those with which it is shown. */
    private String sheet(Conclusion row) {
        return families.stream()
                .filter(family -> isIn(family.members(), row.runs().get(0)))
                .map(family -> ScriptSheet.id(family.worst()))
                .findFirst()
                .orElseThrow();
    }

    private static boolean isIn(List<ScriptResult> members, int index) {
        return members.stream().anyMatch(one -> one.index() == index);
    }

    private void time(Optional<TimeSummary> time) {
        out.open("td");
        RepeatFigures.time(time).forEach(part -> out.leaf("div", part));
        out.close();
    }

    /** A word and a sign, and only then a colour, as with verdicts. */
    private void standing(ClaimOutcome.Standing standing) {
        boolean met = standing == ClaimOutcome.Standing.MET;
        out.open("span", "class", met ? "stamp pass" : "stamp fail");
        out.leaf("span", met ? "\u2713" : "\u2715", "aria-hidden", "true");
        out.text(" " + RepeatFigures.word(standing)).close();
    }

    private void warnings() {
        if (rows.stream().allMatch(row -> row.repeats().orElseThrow().warnings().isEmpty())) {
            return;
        }
        out.open("div", "class", "warning")
                .leaf("strong", "Repeats that may not be independent")
                .open("ul");
        for (Conclusion row : rows) {
            for (String warning : row.repeats().orElseThrow().warnings()) {
                out.open("li").name(row.script()).text(": ").name(warning).close();
            }
        }
        out.close().closeLine();
    }

    /** In the plan's list, beside the first run of those that were repeated. */
    void inPlan(List<ScriptResult> members) {
        for (int i = 0; i < rows.size(); i++) {
            if (isIn(members, rows.get(i).runs().get(0))) {
                brief(i, "span");
            }
        }
    }

    /** On the sheet of each of its runs. */
    void onSheet(ScriptResult result) {
        for (int i = 0; i < rows.size(); i++) {
            if (rows.get(i).runs().contains(result.index())) {
                brief(i, "p");
            }
        }
    }

    private void brief(int place, String element) {
        Repeats repeats = rows.get(place).repeats().orElseThrow();
        out.text(" ").open(element, "class", "small");
        out.leaf("a", "all its runs", "href", "#" + id(place));
        out.text(": " + RepeatFigures.passed(repeats) + " passed");
        repeats.claim().ifPresent(claim -> out.text("; claim " + RepeatFigures.word(claim.standing())));
        if (!repeats.warnings().isEmpty()) {
            out.text("; they may not be independent");
        }
        out.close();
    }

    private static String id(int place) {
        return "r" + (place + 1);
    }
}
