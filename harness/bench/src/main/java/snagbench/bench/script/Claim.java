package snagbench.bench.script;

/**
 * What a number of repeats is to show: that at least so large a share of all runs would pass, said with so much confidence.
 *
 * @param reliability share of runs that would pass, above 0 and below 1
 * @param confidence chance that the claim is not made where it is not true, from 0.5 on and below 1
 * @param failuresAllowed how many of the repeats need not pass, from 0; more of them want more repeats
 */
public record Claim(double reliability, double confidence, int failuresAllowed) {
    /** Checks the ranges. */
    public Claim {
        if (!(reliability > 0 && reliability < 1)) {
            throw new IllegalArgumentException("reliability " + reliability + " is not between 0 and 1");
        }
        if (!(confidence >= 0.5 && confidence < 1)) {
            throw new IllegalArgumentException("confidence " + confidence + " is not from 0.5 to below 1");
        }
        if (failuresAllowed < 0) {
            throw new IllegalArgumentException("failures allowed: " + failuresAllowed);
        }
    }
}
