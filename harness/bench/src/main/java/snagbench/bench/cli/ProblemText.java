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
        if (!source.isBlank()) {
            lines.addAll(marked(source, Math.max(0, place.column() - 1)));
        }
        if (!problem.cure().isEmpty()) {
            lines.add("    " + problem.cure());
        }
        return lines;
    }

    /** The line with a mark under it; of a very long one the part around the mark. */
    private static List<String> marked(String source, int at) {
        int[] points = source.codePoints().toArray();
        int from = points.length <= LONGEST_LINE ? 0 : Math.max(0, Math.min(at, points.length) - LONGEST_LINE / 2);
        int to = Math.min(points.length, from + LONGEST_LINE);
        String lead = from > 0 ? "..." : "";
        String shown = lead + new String(points, from, to - from) + (to < points.length ? "..." : "");
        return List.of("    " + shown, "    " + " ".repeat(lead.length() + at - from) + "^");
    }
}
