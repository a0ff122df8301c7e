package snagbench.bench.run;

import java.io.IOException;
import java.util.Optional;
import snagbench.bench.session.SessionException;

/** One script after the other on one rig: brings it to ready, runs one, and says whether more can be run. */
final class RigTurn {
    private final HeldRig rig;
    private final ScriptRunner scripts;
    private final RunListener listener;

    RigTurn(HeldRig rig, ScriptRunner scripts, RunListener listener) {
        this.rig = rig;
        this.scripts = scripts;
        this.listener = listener;
    }

    /**
     * What came of a turn.
     *
     * @param outcome what came of the script; empty where it was not run, or the user stopped it
     * @param end how the run ends by it; empty if more can be run
     */
    record Turn(Optional<ScriptRunner.Outcome> outcome, Optional<RunEnd> end) {
        private static Turn ended(RunEnd end) {
            return new Turn(Optional.empty(), Optional.of(end));
        }
    }

    /**
     * Runs a script.
     *
     * @param job what is run
     * @param index the place in the plan that is shown with it, from 0
     * @param shown what is shown
     */
    Turn run(ScriptJob job, int index, PlannedRun shown) throws IOException {
        try {
            rig.prepare(why -> listener.waits(index, why));
        } catch (SessionException e) {
            if (e.reason() == SessionException.Reason.CANCELLED) {
                return Turn.ended(rig.stopForUser());
            }
            rig.letGoIfItHears(e);
            return Turn.ended(new RunEnd(RunEnd.Cause.RIG, e.getMessage()));
        }
        listener.started(index, shown);
        ScriptRunner.Outcome outcome = scripts.run(job, micros -> listener.progressed(index, micros));
        if (outcome.judgement().isEmpty()) {
            return Turn.ended(rig.stopForUser());
        }
        return new Turn(
                Optional.of(outcome),
                outcome.endsThePlan().map(failure -> new RunEnd(RunEnd.Cause.RIG, failure.getMessage())));
    }
}
