package snagbench.bench.run;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.judge.Judgement;
import snagbench.bench.script.FaultScript;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/**
 * Makes the control runs of scripts that have passed, each on a rig that is armed anew, with the seed of the fault run. A script
 * that did not pass gets none: they can take a pass, and never give one.
 */
final class ControlRunner {
    private final ControlRuns which;
    private final RigTurn turns;
    private final Journal journal;
    private final RunListener listener;
    private final List<ScriptResult> made = new ArrayList<>();
    private int next;

    ControlRunner(RunPlan plan, ControlRuns which, RigTurn turns, Journal journal, RunListener listener) {
        this.which = which;
        this.turns = turns;
        this.journal = journal;
        this.listener = listener;
        this.next = plan.runs().size();
    }

    /** What was made so far. */
    List<ScriptResult> made() {
        return List.copyOf(made);
    }

    /** Makes those of a fault run; tells how the run ends by it, if it does. */
    Optional<RunEnd> controlsOf(ScriptResult fault, PlannedRun run, Trace trace) throws IOException {
        for (ControlRun one :
                which.of(fault.index(), run.script(), fault.rigMicros() - begunMicros(run.script(), trace))) {
            Optional<RunEnd> ended = make(one, fault, run);
            if (ended.isPresent()) {
                return ended;
            }
        }
        return Optional.empty();
    }

    /** When the beginning was done; 0 where that is not known: a control run is the longer then. */
    static long begunMicros(FaultScript script, Trace trace) {
        int last = script.begin().size() - 1;
        return trace.events().stream()
                .filter(one -> one.kind() == EventKind.STAGE_DONE && one.a() == last)
                .mapToLong(Happening::micros)
                .findFirst()
                .orElse(0);
    }

    private Optional<RunEnd> make(ControlRun one, ScriptResult fault, PlannedRun run) throws IOException {
        int index = next++;
        PlannedRun planned =
                new PlannedRun(one.script(), run.repeat(), run.repeats(), run.seed(), Optional.of(one.control()));
        if (one.instead().isPresent()) {
            note(ScriptResult.of(index, planned, one.instead().get(), Optional.empty(), fault.variant()));
            return Optional.empty();
        }
        ScriptJob job = new ScriptJob(
                one.script(),
                run.seed(),
                Optional.of(RunFolder.traceName(index, planned.title())),
                one.judgedFrom() == 0);
        RigTurn.Turn turn = turns.run(job, fault.index(), planned);
        if (turn.outcome().isPresent()) {
            Judgement taken = one.taken(turn.outcome().get().judgement().orElseThrow());
            note(ScriptResult.of(index, planned, taken, turn.outcome(), fault.variant()));
        }
        return turn.end();
    }

    private void note(ScriptResult result) throws IOException {
        made.add(result);
        journal.append(result);
        listener.ended(result);
    }
}
