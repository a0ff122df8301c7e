package snagbench.bench.run;

import java.util.List;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;

/**
 * All that a run needs, checked.
 *
 * @param name of the plan, or of the only script
 * @param file the plan's file, or the script's, as the user named it
 * @param rig the rig's file
 * @param description the rig's description against which the scripts were checked
 * @param build the build of the control code that was asked for; empty for whichever is there
 * @param seed seed of the whole run
 * @param runTimeMicros the whole time of one unattended run; no script is listened to for longer after its beginning
 * @param runs in order
 */
public record RunPlan(
        String name,
        String file,
        RigFile rig,
        RigDescription description,
        String build,
        int seed,
        long runTimeMicros,
        List<PlannedRun> runs) {
    /** Copies the list. */
    public RunPlan {
        runs = List.copyOf(runs);
    }
}
