package snagbench.bench.run;

import java.util.Optional;
import snagbench.bench.script.FaultScript;

/**
 * One run of one script in a plan.
 *
 * @param script the script
 * @param repeat the how-manieth run of it, from 1
 * @param repeats how many runs of it are planned
 * @param seed seed of noise, and of a virtual rig's variation
 * @param control what it is a control of; empty for a fault run
 */
public record PlannedRun(FaultScript script, int repeat, int repeats, int seed, Optional<Control> control) {
    /**
     * A fault run.
     *
     * @param script the script
     * @param repeat the how-manieth run of it, from 1
     * @param repeats how many runs of it are planned
     * @param seed seed of noise, and of a virtual rig's variation
     */
    public PlannedRun(FaultScript script, int repeat, int repeats, int seed) {
        this(script, repeat, repeats, seed, Optional.empty());
    }

    /**
     * The run as people read it.
     *
     * @return the script's name, with what it varies, and with the repeat where there are several
     */
    public String title() {
        String name = nameOf(script);
        String repeated = repeats == 1 ? name : name + " (" + repeat + " of " + repeats + ")";
        return repeated + control.map(one -> ", " + one.words()).orElse("");
    }

    /**
     * A script as people read it.
     *
     * @param script which
     * @return its name, with what it varies
     */
    public static String nameOf(FaultScript script) {
        return script.name()
                + script.variant().map(variant -> ", " + variant.show()).orElse("");
    }

    /** Whether another run is of the same file, which varies something. */
    boolean isOfOneFamilyWith(PlannedRun other) {
        return script.variant().isPresent()
                && other.script.variant().isPresent()
                && script.place().equals(other.script.place());
    }
}
