package snagbench.bench.run;

import java.util.List;
import java.util.Set;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.RigFile;

/**
 * Which changes of the control code a plan is to notice, one at a time.
 *
 * @param removals fail-safes that are left out in turn
 * @param constants constants of the control code that are changed in turn, both ways
 */
public record AdequacyPlan(List<FailSafeDescription> removals, List<Change> constants) {
    /** Copies the lists. */
    public AdequacyPlan {
        removals = List.copyOf(removals);
        constants = List.copyOf(constants);
    }

    /**
     * A constant that is changed.
     *
     * @param constant which, and by how much
     * @param failSafes names of those that the register says it belongs to: their scripts are tried first
     */
    public record Change(RigFile.Adjustable constant, Set<String> failSafes) {
        /** Copies the set. */
        public Change {
            failSafes = Set.copyOf(failSafes);
        }
    }
}
