package snagbench.bench.script;

import java.util.Optional;

/**
 * What holds between two runs, so that one does not make the next another: motors get warm, a battery gets empty.
 *
 * @param restMicros how long the rig rests between two runs, in microseconds; 0 for not at all
 * @param startOnlyIf what its readings must hold before each run; empty where nothing is asked
 * @param giveUpMicros how long that is waited for, in microseconds, until the plan ends
 */
public record Between(long restMicros, Optional<Condition> startOnlyIf, long giveUpMicros) {
    /** How long is waited where the plan does not say. */
    public static final long USUAL_GIVE_UP_MICROS = 60_000_000;

    /**
     * Nothing holds.
     *
     * @return no rest, and no condition
     */
    public static Between nothing() {
        return new Between(0, Optional.empty(), USUAL_GIVE_UP_MICROS);
    }

    /**
     * The same with a condition.
     *
     * @param condition what readings must hold before each run
     * @return with it
     */
    public Between onlyIf(Optional<Condition> condition) {
        return new Between(restMicros, condition, giveUpMicros);
    }
}
