package snagbench.bench.cli;

import java.util.List;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.ExpectationText;
import snagbench.bench.report.Family;
import snagbench.bench.report.PlainText;
import snagbench.bench.report.ResultText;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;

/** Shows results on the screen: as much as the user wants to be told, in colour where that can be seen. */
final class Results {
    private final Surroundings to;
    private final Talk talk;
    private final Paint paint;
    private boolean begun;
    private boolean shown;

    Results(Surroundings to, Talk talk) {
        this.to = to;
        this.talk = talk;
        this.paint = new Paint(to.looks().colours());
    }

    /** What is shown of, and the heads of its columns; once. */
    void begin(String title) {
        if (!begun && !talk.quiet()) {
            to.out().println(title);
            to.out().println(ResultText.heads());
            shown = true;
        }
        begun = true;
    }

    /** The rows of what belongs together. */
    void rows(Family family) {
        if (talk.quiet()) {
            return;
        }
        show(ResultText.rows(family));
        if (talk.verbose()) {
            show(ExpectationText.lines(family.worst()));
        }
    }

    /** The row of one that stands alone, whatever family it is of. */
    void row(ScriptResult result) {
        if (!talk.quiet()) {
            show(List.of(ResultText.row(result)));
        }
        if (talk.verbose()) {
            show(ExpectationText.lines(result));
        }
    }

    /** What is to be known of it. */
    void details(ScriptResult result) {
        details(ResultText.details(result), result.judgement().verdict() == Verdict.PASS);
    }

    /** What is to be known of each that did not pass; and of the others, where there is anything. */
    void details(List<Family> families) {
        for (Family family : families) {
            details(ResultText.details(family), family.notPassed().isEmpty());
        }
    }

    private void details(List<String> lines, boolean passed) {
        if (!lines.isEmpty() && !(talk.quiet() && passed)) {
            separate();
            show(lines);
        }
    }

    /** The sum. */
    void summary(RunRecord run) {
        separate();
        show(ResultText.summary(run));
    }

    /** What there is to say besides: nothing where the user wants to hear little. */
    void note(String line) {
        if (!talk.quiet()) {
            show(List.of(line));
        }
    }

    private void separate() {
        if (shown) {
            to.out().println();
        }
    }

    private void show(List<String> lines) {
        shown |= !lines.isEmpty();
        // Colours are our own, and come to lines that are plain already.
        lines.forEach(line -> {
            to.out().print(paint.line(PlainText.of(line)));
            to.out().println();
        });
    }
}
