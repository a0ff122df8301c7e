package snagbench.bench.run;

import snagbench.bench.script.FaultScript;

/**
 * One run of one script in a plan.
 *
 * @param script the script
 * @param repeat the how-manieth run of it, from 1
 * @param repeats how many runs of it are planned
 * @param seed seed of noise, and of a virtual rig's variation
 */
public record PlannedRun(FaultScript script, int repeat, int repeats, int seed) {
    /**
     * The run as people read it.
     *
     * @return the script's name, with the repeat where there are several
     */
    public String title() {
        return repeats == 1 ? script.name() : script.name() + " (" + repeat + " of " + repeats + ")";
    }
}
