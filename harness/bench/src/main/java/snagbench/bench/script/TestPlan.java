package snagbench.bench.script;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Fault scripts in an order. The scripts themselves are read apart, against the rig's description.
 *
 * @param place where the plan starts
 * @param name what the plan is called
 * @param rig name of the rig
 * @param build which build of the control code, where the plan asks for one
 * @param runTimeMicros the whole time of one unattended run
 * @param reserveMicros what recoveries may cost in one run
 * @param between what holds between two runs; what the rig must read before a run is read apart, against its description
 * @param scripts at least one
 */
public record TestPlan(
        Place place,
        String name,
        String rig,
        Optional<String> build,
        long runTimeMicros,
        long reserveMicros,
        Between between,
        List<PlannedScript> scripts) {
    /** Copies the list. */
    public TestPlan {
        scripts = List.copyOf(scripts);
    }

    /**
     * One script of a plan.
     *
     * @param place where the plan names it
     * @param file the script's file
     * @param repeat how often it runs, from 1; empty where the plan does not say
     * @param claim what its repeats are to show: its own, or else that of the whole plan
     */
    public record PlannedScript(Place place, Path file, OptionalInt repeat, Optional<Claim> claim) {}
}
