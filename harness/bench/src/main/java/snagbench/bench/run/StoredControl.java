package snagbench.bench.run;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.judge.InjectionFacts;
import snagbench.bench.judge.Judge;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.Programs;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceHeader;

/**
 * Which control run of a script a stored trace is of: what the rig was loaded with tells it. How long the fault run took is not in
 * the trace; a control run was watched as long, so that the trace's own length serves.
 */
final class StoredControl {
    private final FaultScript script;
    private final Trace trace;
    private final RigFile rig;
    private final RigDescription description;

    /**
     * Of one trace.
     *
     * @param script of which it may be a control run
     * @param trace of a run
     * @param rig what only people know of the rig
     * @param description against which the script was read
     */
    StoredControl(FaultScript script, Trace trace, RigFile rig, RigDescription description) {
        this.script = script;
        this.trace = trace;
        this.rig = rig;
        this.description = description;
    }

    /** The control run with whose program the rig was loaded; empty where there is none, or where two have the same. */
    Optional<ControlRun> madeOf(TraceHeader header) {
        List<ControlRun> same = candidates(lastMicros() - ControlRunner.begunMicros(script, trace)).stream()
                .filter(one -> one.instead().isEmpty() && Programs.digestOf(one.script()) == header.program())
                .toList();
        return same.size() == 1 ? Optional.of(asLongAsItWas(same.get(0))) : Optional.empty();
    }

    private List<ControlRun> candidates(long lastedMicros) {
        List<ControlRun> candidates = new ArrayList<>();
        List<FailSafeDescription> named = ControlRuns.named(script);
        List<FailSafeDescription> toAnswer = named.stream()
                .filter(one -> ControlRuns.mustAnswer(script, one))
                .toList();
        if (!toAnswer.isEmpty()) {
            candidates.add(ControlRuns.withoutFault(0, script, toAnswer, lastedMicros));
        }
        for (FailSafeDescription one : named) {
            if (!toAnswer.contains(one)) {
                candidates.add(ControlRuns.twin(0, script, one, lastedMicros));
            } else if (ControlRuns.objection(script, one, description).isEmpty()) {
                candidates.add(ControlRuns.inhibited(0, script, one));
            }
        }
        return candidates;
    }

    /** Where a twin's fail-safe did not answer, its time ran out before the rig settled; it counts from the strike. */
    private ControlRun asLongAsItWas(ControlRun found) {
        if (found.control().role() != Role.TWIN) {
            return found;
        }
        Judgement judgement = Judge.judge(found.script(), trace, rig);
        OptionalLong struck = judgement.injections().stream()
                .skip(ControlRuns.altered(script).index())
                .findFirst()
                .map(InjectionFacts::firstMicros)
                .orElse(OptionalLong.empty());
        long lasted = struck.isPresent() ? lastMicros() - struck.getAsLong() - rig.settlingMicros() : 0;
        if (found.taken(judgement).verdict() == Verdict.PASS || lasted <= 0) {
            return found;
        }
        return candidates(lasted).stream()
                .filter(one -> one.control().equals(found.control()))
                .findFirst()
                .orElse(found);
    }

    private long lastMicros() {
        return trace.rows() == 0 ? 0 : trace.micros(trace.rows() - 1);
    }
}
