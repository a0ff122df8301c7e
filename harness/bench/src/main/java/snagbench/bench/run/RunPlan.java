package snagbench.bench.run;

import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Between;
import snagbench.bench.script.Place;
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
 * @param between what holds between two runs
 * @param claims what is to be shown of which scripts
 * @param checks what is checked of the scripts themselves
 */
public record RunPlan(
        String name,
        String file,
        RigFile rig,
        RigDescription description,
        String build,
        int seed,
        long runTimeMicros,
        List<PlannedRun> runs,
        Between between,
        List<ClaimedScript> claims,
        ChecksWanted checks) {
    /** Copies the lists. */
    public RunPlan {
        runs = List.copyOf(runs);
        claims = List.copyOf(claims);
    }

    /**
     * A plan that claims nothing and lets nothing rest.
     *
     * @param name of the plan, or of the only script
     * @param file the plan's file, or the script's, as the user named it
     * @param rig the rig's file
     * @param description the rig's description against which the scripts were checked
     * @param build the build of the control code that was asked for; empty for whichever is there
     * @param seed seed of the whole run
     * @param runTimeMicros the whole time of one unattended run
     * @param runs in order
     */
    public RunPlan(
            String name,
            String file,
            RigFile rig,
            RigDescription description,
            String build,
            int seed,
            long runTimeMicros,
            List<PlannedRun> runs) {
        this(
                name,
                file,
                rig,
                description,
                build,
                seed,
                runTimeMicros,
                runs,
                Between.nothing(),
                List.of(),
                ChecksWanted.none());
    }

    /** What is claimed of a script. */
    Optional<ClaimedScript> claimOf(Place script) {
        return claims.stream().filter(one -> one.script().equals(script)).findFirst();
    }

    /** Which of the scripts of its file a run is of, where the file varies something; those stand one behind the other. */
    Optional<ScriptResult.Variation> variation(int index) {
        PlannedRun run = runs.get(index);
        int first = index;
        while (first > 0 && runs.get(first - 1).isOfOneFamilyWith(run)) {
            first--;
        }
        int behind = index + 1;
        while (behind < runs.size() && runs.get(behind).isOfOneFamilyWith(run)) {
            behind++;
        }
        int of = behind - first;
        int number = index - first + 1;
        return run.script().variant().map(variant -> new ScriptResult.Variation(variant.show(), number, of));
    }
}
