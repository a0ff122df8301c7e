package snagbench.bench.run;

import java.util.Optional;

/**
 * What a plan wants to be checked of its own scripts.
 *
 * @param noFault whether scripts that pass are run without their fault too
 * @param inhibited whether scripts that pass are run with each fail-safe left out that they name, or, where their point is that it
 *     must not fire, as their twin over the limit
 * @param adequacy which changes of the control code the plan is to notice
 */
public record ChecksWanted(boolean noFault, boolean inhibited, Optional<AdequacyPlan> adequacy) {
    /**
     * Nothing.
     *
     * @return no control run, no change of the control code
     */
    public static ChecksWanted none() {
        return new ChecksWanted(false, false, Optional.empty());
    }
}
