package snagbench.bench.evidence;

import snagbench.bench.script.Claim;

/**
 * What came of a claim.
 *
 * @param claim what was to be shown, with the failures that the number of runs allows
 * @param runsPlanned how many runs were to show it: fixed beforehand, and never changed by what the first of them came to
 * @param runs how many were made
 * @param notPassed how many of these did not pass, for whatever reason
 * @param standing what came of it
 */
public record ClaimOutcome(Claim claim, int runsPlanned, int runs, int notPassed, Standing standing) {
    /** What came of a claim. */
    public enum Standing {
        /** All runs were made, and enough of them passed. */
        MET,
        /** All runs were made and too few of them passed; or not all were made: their number was fixed beforehand. */
        NOT_MET,
        /** Not all were made, and whatever the others had come to, it could not be met any more. */
        OUT_OF_REACH
    }

    /**
     * Holds what was run against a claim.
     *
     * @param claim what was to be shown
     * @param runsPlanned how many runs were to show it
     * @param runs how many were made so far
     * @param notPassed how many of these did not pass, for whatever reason
     * @return what came of it
     */
    public static ClaimOutcome of(Claim claim, int runsPlanned, int runs, int notPassed) {
        Standing standing;
        if (runs < runsPlanned) {
            standing = notPassed > claim.failuresAllowed() ? Standing.OUT_OF_REACH : Standing.NOT_MET;
        } else {
            boolean enough = notPassed <= claim.failuresAllowed() && SampleSize.shows(runs, claim);
            standing = enough ? Standing.MET : Standing.NOT_MET;
        }
        return new ClaimOutcome(claim, runsPlanned, runs, notPassed, standing);
    }

    /**
     * What came of it, in a sentence.
     *
     * @return such as "claim met: 90 % reliability at 90 % confidence (22 of 22 passed)"
     */
    public String words() {
        String what =
                Percent.of(claim.reliability()) + " reliability at " + Percent.of(claim.confidence()) + " confidence";
        String passed = (runs - notPassed) + " of " + runs + " passed";
        String allowed = claim.failuresAllowed() == 0
                ? "all " + runsPlanned + " had to"
                : runsPlanned - claim.failuresAllowed() + " of " + runsPlanned + " had to";
        return switch (standing) {
            case MET -> "claim met: " + what + " (" + passed + ")";
            case NOT_MET ->
                runs < runsPlanned
                        ? "claim not met: " + what + " (" + passed + ", and " + runsPlanned + " runs were to show it)"
                        : "claim not met: " + what + " (" + passed + ", and " + allowed + ")";
            case OUT_OF_REACH -> "claim cannot be met any more: " + what + " (" + passed + ", and " + allowed + ")";
        };
    }
}
