package snagbench.bench.run;

import java.util.Arrays;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.FaultScript.Need;
import snagbench.bench.script.RigFile;
import snagbench.wire.Hello;

/**
 * On what terms a rig is driven.
 *
 * @param granted what the user has seen to at a real rig; {@link Need#MOTION} is what makes it move at all
 * @param build the control code's build as the rig must tell it; empty for whichever is there
 * @param releaseLatch whether a stop that a real rig has latched before is released: the user has looked at the machine
 * @param toTheEnd whether a script that has failed for certain is run to its end all the same
 * @param inhibitedOnReal whether a real rig may meet a fault with a fail-safe left out, in a control run or by the script itself
 */
public record RunTerms(
        Set<Need> granted, Optional<String> build, boolean releaseLatch, boolean toTheEnd, boolean inhibitedOnReal) {
    /** Copies the set. */
    public RunTerms {
        granted = Set.copyOf(granted);
    }

    /**
     * Terms on which a script that has failed for certain ends early.
     *
     * @param granted what the user has seen to at a real rig
     * @param build the control code's build as the rig must tell it; empty for whichever is there
     * @param releaseLatch whether a stop that a real rig has latched before is released
     */
    public RunTerms(Set<Need> granted, Optional<String> build, boolean releaseLatch) {
        this(granted, build, releaseLatch, false, false);
    }

    /**
     * Terms on which a stop that is latched on a real rig stays so.
     *
     * @param granted what the user has seen to at a real rig
     * @param build the control code's build as the rig must tell it; empty for whichever is there
     */
    public RunTerms(Set<Need> granted, Optional<String> build) {
        this(granted, build, false);
    }

    /**
     * Terms of a rig in this process.
     *
     * @return nothing is granted, and any build will do
     */
    public static RunTerms none() {
        return new RunTerms(Set.of(), Optional.empty());
    }

    /** Why a rig that greets so is not driven at all. */
    Optional<String> objection(Hello greeting) {
        if (greeting.real != 0 && !granted.contains(Need.MOTION)) {
            return Optional.of(
                    "this is a real rig: its greeting says so. It is driven only when that is asked for: see that"
                            + " nobody is in the machine's reach and that its power can be cut, then run again with --motion");
        }
        return build.filter(wanted -> !wanted.equals(greeting.build))
                .map(wanted -> "the plan is for build \"" + wanted + "\" of the control code, and the rig runs \""
                        + greeting.build + "\"");
    }

    /** Why a script is left out on a rig; nobody can lend a virtual one a hand unless it is said so. */
    Optional<String> lacking(FaultScript script, RigFile rig, boolean real) {
        String needs = Arrays.stream(Need.values())
                .filter(need ->
                        script.needs().contains(need) && !granted.contains(need) && (real || need == Need.HANDS))
                .map(RunTerms::words)
                .collect(Collectors.joining(", "));
        if (!needs.isEmpty()) {
            return Optional.of("left out: it needs " + needs);
        }
        return real && InhibitionOnReal.isWantedBy(script)
                ? InhibitionOnReal.objection(script, rig, inhibitedOnReal)
                        .map(why -> "left out for its \"inhibit\": " + why)
                : Optional.empty();
    }

    private static String words(Need need) {
        return need.word() + " (--" + need.word().replace(' ', '-') + ")";
    }
}
