package snagbench.bench.cli;

import java.util.ArrayList;
import java.util.List;
import snagbench.bench.script.Place;
import snagbench.bench.script.Problem;

/** A problem of a file as people read it: where, what, the line with a mark under it, and what would do. */
final class ProblemText {
    private static final int LONGEST_LINE = 160;

    private ProblemText() {}

    static List<String> lines(Problem problem, Surroundings surroundings) {
        Place place = problem.place();
        Place shown = new Place(surroundings.show(place.file()), place.line(), place.column());
        String severity = problem.severity() == Problem.Severity.ERROR ? "" : "warning: ";
        List<String> lines = new ArrayList<>();
        lines.add(shown + ": " + severity + problem.message());
        String source = problem.sourceLine().replace('\t', ' ');
        if (!source.isBlank() && source.length() <= LONGEST_LINE) {
            lines.add("    " + source);
            lines.add("    " + " ".repeat(Math.max(0, place.column() - 1)) + "^");
        }
        if (!problem.cure().isEmpty()) {
            lines.add("    " + problem.cure());
        }
        return lines;
    }
}
