package snagbench.bench.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import snagbench.bench.evidence.ClaimOutcome;
import snagbench.bench.evidence.Repeats;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.Conclusion;
import snagbench.bench.run.Conclusions;
import snagbench.bench.run.RunEnd;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;

/** A run as Markdown (CommonMark, and tables as many sites show them), short enough for a chat or the page of a CI job. */
public final class MarkdownSummary {
    /** Name of the file in a run's folder. */
    public static final String FILE_NAME = "summary.md";

    private static final String PUNCTUATION = "\\`*_{}[]()<>#+-.!|~&:@\"'$=^/";
    private static final int MOST_ROWS = 60;
    private static final int LONGEST = 160;
    private static final int LONGEST_SENTENCE = 400;
    private static final char WORD_JOINER = '\u2060';

    private MarkdownSummary() {}

    /**
     * Writes the summary of a run.
     *
     * @param run as its journal tells it
     * @param folder takes the file
     * @return the file
     * @throws IOException if it cannot be written
     */
    public static Path write(RunRecord run, Path folder) throws IOException {
        Path file = folder.resolve(FILE_NAME);
        Files.writeString(file, text(run), StandardCharsets.UTF_8);
        return file;
    }

    /**
     * The summary of a run.
     *
     * @param run as its journal tells it
     * @return the file's text
     */
    public static String text(RunRecord run) {
        List<String> lines = new ArrayList<>();
        lines.add("### " + of(run.header().plan()) + ": " + Sentences.verdict(run));
        lines.add("");
        lines.add("Rig " + of(run.header().rig()) + ", build " + of(run.header().build()) + ", seed "
                + run.header().seed() + ". " + Summary.of(run).words() + ".");
        Sentences.firstTrouble(run).ifPresent(result -> {
            lines.add("");
            lines.add("First: **" + of(Sentences.title(result)) + "**: "
                    + result.judgement().verdict().word() + ", " + of(Sentences.cause(result.judgement())) + ".");
        });
        if (run.end().isEmpty()) {
            lines.add("");
            lines.add("The run was cut short: its journal has no end.");
        }
        run.end().filter(end -> end.cause() != RunEnd.Cause.COMPLETE).ifPresent(end -> {
            lines.add("");
            lines.add("The run went no further: " + of(end.reason()) + ".");
        });
        repeats(run, lines);
        lines.add("");
        rows(run, lines);
        if (!run.notRun().isEmpty()) {
            lines.add("");
            lines.add("Not run: " + run.notRun().size() + ".");
        }
        return String.join("\n", lines) + "\n";
    }

    /** What was repeated or claimed, before the list of all runs, which it makes long. */
    private static void repeats(RunRecord run, List<String> lines) {
        List<Conclusion> rows = Conclusions.of(run).rows().stream()
                .filter(row -> row.repeats().isPresent())
                .toList();
        if (rows.isEmpty()) {
            return;
        }
        lines.add("");
        lines.add("| repeated script | passed | that shows | claim | detected after | recovered after |");
        lines.add("| :-- | :-- | :-- | :-- | :-- | :-- |");
        rows.stream().limit(MOST_ROWS).forEach(row -> lines.add(repeated(row)));
        if (rows.size() > MOST_ROWS) {
            lines.add("");
            lines.add("And " + (rows.size() - MOST_ROWS) + " more that were repeated.");
        }
        List<String> warnings = rows.stream()
                .flatMap(row -> row.repeats().orElseThrow().warnings().stream()
                        .map(warning -> "- warning: " + of(row.script()) + ": " + of(warning, LONGEST_SENTENCE)))
                .toList();
        if (!warnings.isEmpty()) {
            lines.add("");
            lines.addAll(warnings.subList(0, Math.min(MOST_ROWS, warnings.size())));
        }
    }

    private static String repeated(Conclusion row) {
        Repeats repeats = row.repeats().orElseThrow();
        String claim = repeats.claim()
                .map(one -> (one.standing() == ClaimOutcome.Standing.MET
                                ? "met"
                                : "**" + RepeatFigures.word(one.standing()) + "**")
                        + ": " + RepeatFigures.wanted(one.claim()))
                .orElse("none");
        return "| " + of(row.script()) + " | " + RepeatFigures.passed(repeats)
                + (row.inconsistent() ? ", **inconsistent**" : "") + " | " + RepeatFigures.shown(repeats) + " | "
                + claim + " | " + String.join("; ", RepeatFigures.time(repeats.detection())) + " | "
                + String.join("; ", RepeatFigures.time(repeats.recovery())) + " |";
    }

    /** What did not pass comes first where there are too many for all. */
    private static void rows(RunRecord run, List<String> lines) {
        lines.add("| no. | verdict | script | fail-safe | detected | recovered | margin |");
        lines.add("| --: | :-- | :-- | :-- | --: | --: | --: |");
        List<Family> families = Family.of(run.results());
        List<Family> shown = families.size() <= MOST_ROWS
                ? families
                : families.stream()
                        .filter(one -> one.worst().judgement().verdict() != Verdict.PASS)
                        .limit(MOST_ROWS)
                        .toList();
        shown.forEach(family -> lines.add(row(family)));
        if (shown.size() < families.size()) {
            lines.add("");
            lines.add("And " + (families.size() - shown.size()) + " more, of which "
                    + families.stream()
                            .filter(one -> one.worst().judgement().verdict() == Verdict.PASS)
                            .count()
                    + " pass.");
        }
    }

    private static String row(Family family) {
        ScriptResult result = family.worst();
        Judgement judgement = result.judgement();
        String name = family.varies()
                ? result.script() + ", worst of " + family.members().size()
                : Sentences.title(result);
        boolean passed = judgement.verdict() == Verdict.PASS;
        return "| " + (result.index() + 1) + " | "
                + (passed ? "pass" : "**" + judgement.verdict().word() + "**") + " | " + of(name) + " | "
                + of(String.join(" ", result.failSafes())) + " | " + Figures.millis(judgement.detectionMicros()) + " | "
                + Figures.millis(judgement.recoveryMicros()) + " | " + Figures.margin(judgement.marginMicros()) + " |";
    }

    /**
     * A text of somebody else's: one line, every sign that could mean something escaped, and no name called.
     *
     * @param text as it was written
     * @return Markdown that shows the text
     */
    static String of(String text) {
        return of(text, LONGEST);
    }

    private static String of(String text, int longest) {
        StringBuilder escaped = new StringBuilder();
        String line = PlainText.brief(text, longest);
        for (int i = 0; i < line.length(); i++) {
            char letter = line.charAt(i);
            if (PUNCTUATION.indexOf(letter) >= 0) {
                escaped.append('\\');
            }
            escaped.append(letter);
            if (letter == '@') {
                escaped.append(WORD_JOINER);
            }
        }
        return escaped.toString();
    }
}
