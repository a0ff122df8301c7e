package snagbench.bench.run;

/** Is told how a run goes, on the run's own thread, for people to see. */
public interface RunListener {
    /**
     * A script is about to start.
     *
     * @param index its place in the plan, from 0
     * @param run what runs
     */
    void started(int index, PlannedRun run);

    /**
     * Nothing runs: the rig rests, or its readings are waited for.
     *
     * @param index place in the plan of what runs next, from 0
     * @param why a few words
     */
    default void waits(int index, String why) {
        // Who only wants results need not know.
    }

    /**
     * A script goes on. Called often.
     *
     * @param index its place in the plan, from 0
     * @param rigMicros time on the rig's clock since arming, in microseconds
     */
    void progressed(int index, long rigMicros);

    /**
     * A script has ended, and its result is in the journal.
     *
     * @param result what came of it
     */
    void ended(ScriptResult result);

    /**
     * A change of the control code was tried out, and the result is in the journal.
     *
     * @param result whether the plan noticed it
     */
    default void tried(ChangeResult result) {
        // not everybody shows these
    }
}
