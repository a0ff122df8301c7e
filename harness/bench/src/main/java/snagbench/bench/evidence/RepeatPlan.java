package snagbench.bench.evidence;

import java.util.Optional;
import java.util.OptionalInt;
import snagbench.bench.script.Claim;

/**
 * How often a script runs, and why that will not do, if it will not.
 *
 * @param each how often each of the scripts that its file stands for, from 1
 * @param total how many runs that makes together
 * @param objection why what is claimed cannot be shown so, or that it would be too many
 */
public record RepeatPlan(int each, int total, Optional<Objection> objection) {
    /** The most runs of one script that a plan makes, all that its file stands for counted together. */
    public static final int MOST_RUNS = 10_000;

    /**
     * Why a claim cannot be shown, or why not so many runs are made.
     *
     * @param message what is wrong
     * @param cure what would do
     */
    public record Objection(String message, String cure) {}

    /**
     * Works out how often a script runs.
     *
     * @param repeat how often the plan says, if it does
     * @param claim what is to be shown, if anything
     * @param scripts how many scripts its file stands for, from 1: all their runs count together
     * @return as often as said; else as often as the claim needs; else once
     */
    public static RepeatPlan of(OptionalInt repeat, Optional<Claim> claim, int scripts) {
        if (claim.isEmpty()) {
            return upToTheMost(repeat.orElse(1), scripts);
        }
        OptionalInt needed = needed(claim.get());
        if (needed.isEmpty() || needed.getAsInt() > MOST_RUNS) {
            String found = needed.isEmpty() ? "more than 1000000" : String.valueOf(needed.getAsInt());
            return refused(
                    words(claim.get()) + " takes " + found + " runs" + ifAll(claim.get()) + ", and a plan makes "
                            + MOST_RUNS + " of a script at most",
                    "claim less; repeats cannot show that much");
        }
        int each = repeat.orElse((needed.getAsInt() + scripts - 1) / scripts);
        if ((long) each * scripts < needed.getAsInt()) {
            String planned =
                    scripts == 1 ? each + " are planned" : each + " of each of its " + scripts + " are planned";
            return refused(
                    words(claim.get()) + " takes " + needed.getAsInt() + " runs" + ifAll(claim.get()) + ", and "
                            + planned,
                    "leave \"repeat\" out, and it runs as often as that takes; or claim less");
        }
        return upToTheMost(each, scripts);
    }

    private static RepeatPlan upToTheMost(int each, int scripts) {
        long total = (long) each * scripts;
        if (total > MOST_RUNS) {
            return refused(
                    each + " runs of each of the " + scripts + " scripts that the file stands for are " + total
                            + ", and a plan makes " + MOST_RUNS + " of a file at most",
                    "write less for \"repeat\", or vary fewer values");
        }
        return new RepeatPlan(each, (int) total, Optional.empty());
    }

    /** Where the search for a number gets out of hand, no plan would reach it either. */
    private static OptionalInt needed(Claim claim) {
        try {
            return OptionalInt.of(SampleSize.runsFor(claim));
        } catch (ArithmeticException e) {
            return OptionalInt.empty();
        }
    }

    private static RepeatPlan refused(String message, String cure) {
        return new RepeatPlan(1, 1, Optional.of(new Objection(message, cure)));
    }

    private static String words(Claim claim) {
        return "a claim of " + Percent.of(claim.reliability()) + " reliability at " + Percent.of(claim.confidence())
                + " confidence";
    }

    private static String ifAll(Claim claim) {
        return switch (claim.failuresAllowed()) {
            case 0 -> " without a failure";
            case 1 -> " with 1 failure allowed";
            default -> " with " + claim.failuresAllowed() + " failures allowed";
        };
    }
}
