package snagbench.bench.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import snagbench.bench.run.Adequacy;
import snagbench.bench.run.ChangeResult;
import snagbench.bench.run.Conclusions;
import snagbench.bench.run.ControlCheck;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;

/** What control runs and changes of the control code say of the scripts, as plain lines of text. */
public final class ChecksText {
    private static final int MOST_NAMED = 30;
    private static final int PER_CENT = 100;

    private ChecksText() {}

    /**
     * What was checked of the scripts of a run.
     *
     * @param run as its journal tells it
     * @return lines; none where nothing was
     */
    public static List<String> lines(RunRecord run) {
        List<String> lines = new ArrayList<>();
        lines.addAll(controls(run));
        if (!run.changes().isEmpty()) {
            lines.addAll(adequacy(run.changes()));
        }
        return lines;
    }

    private static List<String> controls(RunRecord run) {
        Conclusions conclusions = Conclusions.of(run);
        List<ControlCheck> checks = conclusions.rows().stream()
                .flatMap(row -> row.controls().stream())
                .toList();
        if (checks.isEmpty()) {
            return List.of();
        }
        Map<Integer, String> titles = run.results().stream()
                .collect(Collectors.toMap(ScriptResult::index, ScriptResult::title, (one, other) -> one));
        List<String> notPossible = checks.stream()
                .filter(one -> one.state() == ControlCheck.State.NOT_POSSIBLE)
                .map(one -> titles.getOrDefault(one.control().of(), "") + ": " + one.sentence())
                .toList();
        List<String> lines = new ArrayList<>(named("", notPossible));
        long rigMicros =
                run.controls().stream().mapToLong(ScriptResult::rigMicros).sum();
        String counts = Arrays.stream(ControlCheck.State.values())
                .map(state -> count(checks, state))
                .filter(words -> !words.isEmpty())
                .collect(Collectors.joining(", "));
        lines.add(checks.size() + (checks.size() == 1 ? " control run: " : " control runs: ") + counts + "; "
                + Figures.seconds(rigMicros) + " on the rig's clock");
        return lines;
    }

    private static String count(List<ControlCheck> checks, ControlCheck.State state) {
        long count = checks.stream().filter(one -> one.state() == state).count();
        return count == 0 ? "" : count + " " + (count == 1 ? state.word() : state.wordOfMany());
    }

    /**
     * How adequate a plan is.
     *
     * @param changes of the control code that were tried out
     * @return lines: what went unnoticed or could not be tried, then the figures
     */
    public static List<String> adequacy(List<ChangeResult> changes) {
        Adequacy adequacy = Adequacy.of(changes);
        List<String> lines = new ArrayList<>();
        lines.addAll(named(
                "not noticed: ",
                adequacy.unnoticed().stream().map(ChangeResult::words).toList()));
        lines.addAll(named(
                "not tried: ",
                adequacy.notPossible().stream()
                        .map(one -> one.words() + ": " + one.notPossible().orElse(""))
                        .toList()));
        List<String> parts = new ArrayList<>();
        if (adequacy.failSafes() > 0) {
            parts.add("notices " + share(adequacy.failSafesNoticed(), adequacy.failSafes())
                    + " fail-safes that are left out");
        }
        if (adequacy.constants() > 0) {
            parts.add("notices " + share(adequacy.constantsNoticed(), adequacy.constants())
                    + " small changes of constants");
        }
        if (!parts.isEmpty()) {
            lines.add("adequacy: the plan " + String.join(", and ", parts) + "; " + adequacy.runs() + " more runs, "
                    + Figures.seconds(adequacy.rigMicros()) + " on the rig's clock");
        }
        return lines;
    }

    private static String share(int noticed, int of) {
        return noticed + " of " + of + " (" + noticed * PER_CENT / of + " %)";
    }

    private static List<String> named(String before, List<String> names) {
        List<String> lines = new ArrayList<>();
        names.stream().limit(MOST_NAMED).forEach(name -> lines.add(before + name));
        if (names.size() > MOST_NAMED) {
            lines.add(before + "and " + (names.size() - MOST_NAMED) + " more");
        }
        return lines;
    }
}
