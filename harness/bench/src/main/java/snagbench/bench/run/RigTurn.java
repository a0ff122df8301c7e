package snagbench.bench.run;

import java.io.IOException;
import java.util.Optional;
import java.util.function.LongConsumer;
import snagbench.bench.session.SessionException;

/** One script after the other on one rig: brings it to ready, runs one, and says whether more can be run. */
final class RigTurn {
    private final HeldRig rig;
    private final ScriptRunner scripts;

    RigTurn(HeldRig rig, ScriptRunner scripts) {
        this.rig = rig;
        this.scripts = scripts;
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

    Turn run(ScriptJob job, Runnable started, LongConsumer progress) throws IOException {
        try {
            rig.prepare();
        } catch (SessionException e) {
            if (e.reason() == SessionException.Reason.CANCELLED) {
                return Turn.ended(rig.stopForUser());
            }
            rig.letGoIfItHears(e);
            return Turn.ended(new RunEnd(RunEnd.Cause.RIG, e.getMessage()));
        }
        started.run();
        ScriptRunner.Outcome outcome = scripts.run(job, progress);
        if (outcome.judgement().isEmpty()) {
            return Turn.ended(rig.stopForUser());
        }
        return new Turn(
                Optional.of(outcome),
                outcome.endsThePlan().map(failure -> new RunEnd(RunEnd.Cause.RIG, failure.getMessage())));
    }
}
