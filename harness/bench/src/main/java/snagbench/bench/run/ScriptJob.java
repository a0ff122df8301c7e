package snagbench.bench.run;

import java.util.Optional;
import snagbench.bench.script.FaultScript;

/**
 * A script to be run once.
 *
 * @param script what the rig is armed with, and what must follow
 * @param seed with which it is armed
 * @param traceFile where its trace is kept, from the run's folder on; empty for nowhere
 * @param isJudgedWhole false where some of its expectations are there for others to hang on only: that one of these has failed
 *     settles nothing
 */
record ScriptJob(FaultScript script, int seed, Optional<String> traceFile, boolean isJudgedWhole) {
    ScriptJob(FaultScript script, int seed, Optional<String> traceFile) {
        this(script, seed, traceFile, true);
    }

    static ScriptJob of(int index, PlannedRun run) {
        return new ScriptJob(
                run.script(), run.seed(), Optional.of(RunFolder.traceName(index, PlannedRun.nameOf(run.script()))));
    }
}
