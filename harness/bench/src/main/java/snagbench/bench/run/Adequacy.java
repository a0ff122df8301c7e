package snagbench.bench.run;

import java.util.List;

/**
 * How adequate a plan is: which changes of the control code it notices. Computed of the journal alone.
 *
 * @param failSafes how many fail-safes were left out in turn
 * @param failSafesNoticed how many of these the plan noticed
 * @param constants how many changes of constants were made in turn
 * @param constantsNoticed how many of these the plan noticed
 * @param unnoticed those that it did not
 * @param notPossible those that could not be tried
 * @param runs how many runs of scripts that took
 * @param rigMicros how long these took on the rig's clock
 */
public record Adequacy(
        int failSafes,
        int failSafesNoticed,
        int constants,
        int constantsNoticed,
        List<ChangeResult> unnoticed,
        List<ChangeResult> notPossible,
        int runs,
        long rigMicros) {
    /** Copies the lists. */
    public Adequacy {
        unnoticed = List.copyOf(unnoticed);
        notPossible = List.copyOf(notPossible);
    }

    /**
     * Sums up.
     *
     * @param changes that were made, as the journal tells them
     * @return the figures
     */
    public static Adequacy of(List<ChangeResult> changes) {
        List<ChangeResult> tried =
                changes.stream().filter(one -> one.notPossible().isEmpty()).toList();
        List<ChangeResult> noticed =
                tried.stream().filter(one -> one.noticedBy().isPresent()).toList();
        return new Adequacy(
                count(tried, ChangeResult.Kind.FAILSAFE),
                count(noticed, ChangeResult.Kind.FAILSAFE),
                count(tried, ChangeResult.Kind.CONSTANT),
                count(noticed, ChangeResult.Kind.CONSTANT),
                tried.stream().filter(one -> one.noticedBy().isEmpty()).toList(),
                changes.stream().filter(one -> one.notPossible().isPresent()).toList(),
                tried.stream().mapToInt(ChangeResult::runs).sum(),
                tried.stream().mapToLong(ChangeResult::rigMicros).sum());
    }

    private static int count(List<ChangeResult> changes, ChangeResult.Kind kind) {
        return (int) changes.stream().filter(one -> one.kind() == kind).count();
    }
}
