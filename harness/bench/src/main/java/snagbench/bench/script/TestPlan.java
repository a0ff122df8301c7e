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
 * @param controls which control runs its scripts get
 * @param adequacy which changes of the control code it is to notice
 */
public record TestPlan(
        Place place,
        String name,
        String rig,
        Optional<String> build,
        long runTimeMicros,
        long reserveMicros,
        Between between,
        List<PlannedScript> scripts,
        Controls controls,
        AdequacyAsked adequacy) {
    /** Copies the list. */
    public TestPlan {
        scripts = List.copyOf(scripts);
    }

    /**
     * A plan without control runs.
     *
     * @param place where the plan starts
     * @param name what the plan is called
     * @param rig name of the rig
     * @param build which build of the control code, where the plan asks for one
     * @param runTimeMicros the whole time of one unattended run
     * @param reserveMicros what recoveries may cost in one run
     * @param between what holds between two runs
     * @param scripts at least one
     */
    public TestPlan(
            Place place,
            String name,
            String rig,
            Optional<String> build,
            long runTimeMicros,
            long reserveMicros,
            Between between,
            List<PlannedScript> scripts) {
        this(
                place,
                name,
                rig,
                build,
                runTimeMicros,
                reserveMicros,
                between,
                scripts,
                new Controls(false, false),
                new AdequacyAsked(false, false));
    }

    /**
     * The same with what holds between two runs, which is known whole only when the rig is.
     *
     * @param whole with its condition
     * @return with it
     */
    public TestPlan with(Between whole) {
        return new TestPlan(place, name, rig, build, runTimeMicros, reserveMicros, whole, scripts, controls, adequacy);
    }

    /**
     * Which control runs scripts get that have passed.
     *
     * @param noFault the same script without its fault
     * @param inhibited the same script with each fail-safe left out that it names; its twin, where that must not fire
     */
    public record Controls(boolean noFault, boolean inhibited) {}

    /**
     * Which changes of the control code are tried out, one at a time.
     *
     * @param failSafes each fail-safe left out
     * @param constants each adjustable constant, a little lower and a little higher
     */
    public record AdequacyAsked(boolean failSafes, boolean constants) {
        /**
         * Tells whether anything is asked for.
         *
         * @return true for fail-safes or constants
         */
        public boolean any() {
            return failSafes || constants;
        }
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
