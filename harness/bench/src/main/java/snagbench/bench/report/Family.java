package snagbench.bench.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.Function;
import java.util.stream.Collectors;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.ValueMargin;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.ScriptResult;

/**
 * Results that belong together: those of all scripts that one file stands for; repeats that were left out for the same reason; any
 * other result is alone.
 *
 * @param members at least one, in the order in which they were run
 */
public record Family(List<ScriptResult> members) {
    /** Copies the list. */
    public Family {
        members = List.copyOf(members);
    }

    /**
     * Puts together what belongs together.
     *
     * @param results in the order in which they were run
     * @return families in that order
     */
    public static List<Family> of(List<ScriptResult> results) {
        List<Family> families = new ArrayList<>();
        List<ScriptResult> gathered = new ArrayList<>();
        for (ScriptResult result : results) {
            if (!gathered.isEmpty() && !belongTogether(gathered.get(gathered.size() - 1), result)) {
                families.add(new Family(gathered));
                gathered.clear();
            }
            gathered.add(result);
        }
        if (!gathered.isEmpty()) {
            families.add(new Family(gathered));
        }
        return families;
    }

    /**
     * Tells whether two results, one behind the other, belong together.
     *
     * @param one a result
     * @param next the one that follows it
     * @return true if they are shown as one
     */
    public static boolean belongTogether(ScriptResult one, ScriptResult next) {
        return areVariants(one, next) || areLeftOut(one, next);
    }

    private static boolean areLeftOut(ScriptResult one, ScriptResult next) {
        return one.variant().isEmpty()
                && one.place().equals(next.place())
                && next.repeat() == one.repeat() + 1
                && one.judgement().verdict() == Verdict.NONE
                && next.judgement().verdict() == Verdict.NONE
                && one.judgement().reasons().equals(next.judgement().reasons());
    }

    private static boolean areVariants(ScriptResult one, ScriptResult next) {
        return one.variant().isPresent()
                && next.variant().isPresent()
                && one.place().equals(next.place())
                && next.variant().get().number() == one.variant().get().number() + 1;
    }

    /**
     * Tells whether a file varies something.
     *
     * @return false for a result that is alone
     */
    public boolean varies() {
        return members.get(0).variant().isPresent();
    }

    /**
     * The worst case: of the worst verdict, the one with the least margin.
     *
     * @return one of the members
     */
    public ScriptResult worst() {
        return members.stream().max(Family::compare).orElseThrow();
    }

    private static int compare(ScriptResult one, ScriptResult other) {
        int verdicts = one.judgement().verdict().compareTo(other.judgement().verdict());
        return verdicts != 0 ? verdicts : Long.compare(margin(other), margin(one));
    }

    private static long margin(ScriptResult result) {
        return marginOf(result).orElse(Long.MAX_VALUE);
    }

    /**
     * The margin, as far as it says something: where something never came about, what others had to spare does not.
     *
     * @param result of one script
     * @return in microseconds; empty where there is none that says something
     */
    public static OptionalLong marginOf(ScriptResult result) {
        OptionalLong margin = result.judgement().marginMicros();
        boolean says = result.judgement().verdict() == Verdict.PASS || (margin.isPresent() && margin.getAsLong() < 0);
        return says ? margin : OptionalLong.empty();
    }

    OptionalLong greatest(Function<Judgement, OptionalLong> figure) {
        return members.stream()
                .map(ScriptResult::judgement)
                .map(figure)
                .filter(OptionalLong::isPresent)
                .mapToLong(OptionalLong::getAsLong)
                .max();
    }

    OptionalLong leastMargin() {
        return members.stream()
                .map(Family::marginOf)
                .filter(OptionalLong::isPresent)
                .mapToLong(OptionalLong::getAsLong)
                .min();
    }

    List<ValueMargin> leastValues() {
        return ValueMargin.least(members.stream().flatMap(one -> one.judgement().valueMargins().stream()));
    }

    /** Such as "7 pass, 1 fail"; the worst last. */
    String counts() {
        return members.stream()
                .collect(Collectors.groupingBy(one -> one.judgement().verdict(), Collectors.counting()))
                .entrySet()
                .stream()
                .sorted(Comparator.comparing(java.util.Map.Entry::getKey))
                .map(one -> one.getValue() + " " + one.getKey().word())
                .collect(Collectors.joining(", "));
    }

    /**
     * Those that did not pass.
     *
     * @return in the order in which they were run
     */
    public List<ScriptResult> notPassed() {
        return members.stream()
                .filter(one -> one.judgement().verdict() != Verdict.PASS)
                .toList();
    }
}
