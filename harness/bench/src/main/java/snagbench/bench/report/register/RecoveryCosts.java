package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import snagbench.bench.run.Role;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/**
 * What recoveries cost, measured: how much later a run with one came to the next steps of its sequence than a nominal run of the
 * same seed did. Runs in which one fail-safe answered once, and that went on to a step of the nominal sequence behind that
 * answer, tell it; the last such step counts.
 */
public final class RecoveryCosts {
    private final ChannelDescription step;
    private final Function<Integer, Optional<Trace>> nominal;
    private final String against;
    private final Map<Integer, Optional<List<Milestones.Entry>>> bySeed = new HashMap<>();

    /**
     * Costs against nominal runs.
     *
     * @param step the rig's step
     * @param nominal the trace of the nominal run of a seed, where there is one
     * @param against what the nominal runs are, such as "nominal runs of the same seeds"
     */
    public RecoveryCosts(ChannelDescription step, Function<Integer, Optional<Trace>> nominal, String against) {
        this.step = step;
        this.nominal = nominal;
        this.against = against;
    }

    /**
     * Measures.
     *
     * @param results of the scripts
     * @param traces the trace of a result, where there is one
     * @return in the order of the results
     */
    public List<RegisterSheet.Measured> of(List<ScriptResult> results, Function<ScriptResult, Optional<Trace>> traces) {
        List<RegisterSheet.Measured> all = new ArrayList<>();
        for (ScriptResult result : results) {
            if (result.role() != Role.FAULT) {
                continue;
            }
            Optional<List<Milestones.Entry>> undisturbed = nominal(result.seed());
            if (undisturbed.isPresent()) {
                traces.apply(result)
                        .flatMap(trace -> measured(result, trace, undisturbed.get()))
                        .ifPresent(all::add);
            }
        }
        return all;
    }

    /** Only a run in which no fail-safe answered is a measure. */
    private Optional<List<Milestones.Entry>> nominal(int seed) {
        return bySeed.computeIfAbsent(seed, one -> nominal.apply(one)
                .filter(trace -> answers(trace).isEmpty() && trace.restart().isEmpty())
                .flatMap(trace -> Milestones.of(trace, step)));
    }

    private Optional<RegisterSheet.Measured> measured(
            ScriptResult result, Trace trace, List<Milestones.Entry> undisturbed) {
        List<Happening> answers = answers(trace);
        if (answers.size() != 1 || trace.restart().isPresent()) {
            return Optional.empty();
        }
        Happening answer = answers.get(0);
        Optional<String> name = trace.rig().failSafes().stream()
                .filter(one -> one.number() == answer.a())
                .map(one -> one.name())
                .findFirst();
        Optional<Milestones.Reached> reached = Milestones.of(trace, step)
                .flatMap(run -> Milestones.last(undisturbed, run))
                .filter(one -> one.tick() > answer.tick());
        if (name.isEmpty() || reached.isEmpty()) {
            return Optional.empty();
        }
        String script = result.script()
                + result.variant().map(one -> ", " + one.setting()).orElse("");
        return Optional.of(new RegisterSheet.Measured(
                name.get(),
                script,
                result.seed(),
                reached.get().laterMicros(),
                step.show(reached.get().step()),
                against));
    }

    private static List<Happening> answers(Trace trace) {
        return trace.events().stream()
                .filter(one -> one.kind() == EventKind.ANSWERED)
                .toList();
    }
}
