package snagbench.bench.run;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import snagbench.bench.evidence.Attempt;
import snagbench.bench.evidence.Circumstances;
import snagbench.bench.evidence.Repeats;
import snagbench.bench.judge.Verdict;

/**
 * What a run of a plan comes to, once its control runs are held against it. Computed of the journal alone, so that it can be
 * made again: a pass whose control runs fall short is inconclusive, and nothing ever gets better by a control run.
 */
public final class Conclusions {
    private final Optional<RunHeader> header;
    private final List<ScriptResult> results;
    private final Map<Integer, List<ControlCheck>> checks;

    private Conclusions(Optional<RunHeader> header, List<ScriptResult> results, List<ScriptResult> controls) {
        this.header = header;
        this.results = List.copyOf(results);
        this.checks = controls.stream()
                .map(ControlVerdicts::check)
                .collect(Collectors.groupingBy(check -> check.control().of()));
    }

    /**
     * Concludes.
     *
     * @param run as its journal tells it
     * @return what it comes to
     */
    public static Conclusions of(RunRecord run) {
        return new Conclusions(Optional.of(run.header()), run.results(), run.controls());
    }

    /**
     * Results as they are to be taken: a pass that its control runs do not bear out is inconclusive, with a finding that says why.
     *
     * @param results of fault runs
     * @param controls of the control runs that were made for them so far
     * @return the results, in the same order
     */
    public static List<ScriptResult> concluded(List<ScriptResult> results, List<ScriptResult> controls) {
        Conclusions conclusions = new Conclusions(Optional.empty(), results, controls);
        return results.stream()
                .map(result -> Judgements.concluded(result, conclusions.reasonsOf(result)))
                .toList();
    }

    /**
     * What each row of the plan came to.
     *
     * @return a conclusion for each row that was run, in order
     */
    public List<Conclusion> rows() {
        List<Conclusion> rows = new ArrayList<>();
        List<ScriptResult> gathered = new ArrayList<>();
        for (ScriptResult result : results) {
            if (!gathered.isEmpty() && !isOfOneRow(gathered.get(gathered.size() - 1), result)) {
                rows.add(row(gathered));
                gathered.clear();
            }
            gathered.add(result);
        }
        if (!gathered.isEmpty()) {
            rows.add(row(gathered));
        }
        return rows;
    }

    private static boolean isOfOneRow(ScriptResult one, ScriptResult next) {
        if (!one.place().equals(next.place())) {
            return false;
        }
        boolean bothVary = one.variant().isPresent() && next.variant().isPresent();
        return bothVary
                ? next.variant().get().number() == one.variant().get().number() + 1
                : next.repeat() == one.repeat() + 1;
    }

    private Conclusion row(List<ScriptResult> row) {
        Verdict worst = row.stream().map(this::verdictOf).reduce(Verdict.NONE, Verdict::worse);
        List<ControlCheck> ofRow = row.stream()
                .flatMap(result -> checks.getOrDefault(result.index(), List.of()).stream())
                .toList();
        List<String> reasons = row.stream()
                .flatMap(result -> reasonsOf(result).stream())
                .distinct()
                .toList();
        ScriptResult first = row.get(0);
        return new Conclusion(
                first.script(),
                first.place(),
                row.stream().map(ScriptResult::index).toList(),
                worst,
                isInconsistent(row),
                reasons,
                ofRow,
                repeats(row));
    }

    /** Moments that a script varies in order, each once, are no sample of anything, unless something is claimed of them. */
    private Optional<Repeats> repeats(List<ScriptResult> row) {
        if (header.isEmpty()) {
            return Optional.empty();
        }
        ScriptResult first = row.get(0);
        Optional<ClaimedScript> claimed = header.get().claims().stream()
                .filter(one -> one.script().equals(first.place()))
                .findFirst();
        int planned = first.variant().map(ScriptResult.Variation::of).orElse(first.repeats());
        if (claimed.isEmpty() && first.repeats() == 1) {
            return Optional.empty();
        }
        List<Attempt> attempts = row.stream()
                .map(result -> Attempt.of(result.judgement(), verdictOf(result), result.seed(), setting(result)))
                .toList();
        return Optional.of(Repeats.of(
                attempts,
                planned,
                claimed.map(ClaimedScript::claim),
                new Circumstances(header.get().real(), header.get().restMicros())));
    }

    /** The same script, to the last figure, both passed and failed. */
    private static boolean isInconsistent(List<ScriptResult> row) {
        return row.stream()
                .collect(Collectors.groupingBy(result ->
                        result.variant().map(ScriptResult.Variation::setting).orElse("")))
                .values()
                .stream()
                .anyMatch(same -> same.stream().anyMatch(Judgements::passedByItself)
                        && same.stream().anyMatch(one -> one.judgement().verdict() == Verdict.FAIL));
    }

    /**
     * What a single fault run comes to.
     *
     * @param result of this run
     * @return its own verdict; inconclusive where it is a pass and the control runs of its script do not bear that out
     */
    public Verdict verdictOf(ScriptResult result) {
        Verdict own = result.judgement().verdict();
        return own == Verdict.PASS && !reasonsOf(result).isEmpty() ? Verdict.INCONCLUSIVE : own;
    }

    /**
     * Why a pass of a single fault run does not stand.
     *
     * @param result of this run
     * @return sentences; none where it stands, or is none
     */
    public List<String> reasonsOf(ScriptResult result) {
        if (!Judgements.passedByItself(result)) {
            return List.of();
        }
        return controlsOf(result).stream()
                .filter(ControlCheck::takesThePass)
                .map(ControlCheck::sentence)
                .toList();
    }

    /**
     * What the control runs of a fault run's script say; repeats have theirs in common.
     *
     * @param result of this run
     * @return in the order in which they were run
     */
    public List<ControlCheck> controlsOf(ScriptResult result) {
        return results.stream()
                .filter(other -> isTheSameScript(other, result))
                .flatMap(other -> checks.getOrDefault(other.index(), List.of()).stream())
                .toList();
    }

    private static boolean isTheSameScript(ScriptResult one, ScriptResult other) {
        return one.place().equals(other.place())
                && one.script().equals(other.script())
                && Objects.equals(setting(one), setting(other));
    }

    private static String setting(ScriptResult result) {
        return result.variant().map(ScriptResult.Variation::setting).orElse("");
    }
}
