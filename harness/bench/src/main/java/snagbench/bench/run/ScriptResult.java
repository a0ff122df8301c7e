package snagbench.bench.run;

import java.util.List;
import java.util.Optional;
import snagbench.bench.judge.Judgement;
import snagbench.bench.script.Place;

/**
 * What came of one run of one script.
 *
 * @param index its place in the plan, from 0
 * @param script the script's name
 * @param place where the script is written
 * @param repeat the how-manieth run of it, from 1
 * @param repeats how many runs of it were planned
 * @param seed with which it ran
 * @param failSafes names of the fail-safes that it is evidence for
 * @param evidence told by override, physical by disturbance, or both
 * @param judgement verdict, findings, times and reasons
 * @param rigMicros how long it ran on the rig's clock, from arming on, in microseconds
 * @param loops loop times seen
 * @param gapTicks ticks of which nothing was recorded
 * @param trace file of the trace, from the journal's folder on, with slashes; empty where there is none
 */
public record ScriptResult(
        int index,
        String script,
        Place place,
        int repeat,
        int repeats,
        int seed,
        List<String> failSafes,
        Evidence evidence,
        Judgement judgement,
        long rigMicros,
        LoopTimes loops,
        long gapTicks,
        Optional<String> trace) {
    /** Copies the list. */
    public ScriptResult {
        failSafes = List.copyOf(failSafes);
    }

    /** What made the machine believe in the fault. */
    public enum Evidence {
        /** Readings were overridden: they cause no sag, heat or force. */
        TOLD,
        /** The rig made the fault itself. */
        PHYSICAL,
        /** Some of both. */
        TOLD_AND_PHYSICAL
    }

    /**
     * Loop times seen, in microseconds; 0 where none was.
     *
     * @param medianMicros half of the loops were no longer
     * @param longestMicros the longest
     */
    public record LoopTimes(long medianMicros, long longestMicros) {}
}
