package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;

/**
 * What a script came to, and why. How near it was to the other verdict is told in time and in value, side by side: seconds and
 * amperes have no common measure, so neither is ever turned into the other.
 *
 * @param verdict the worst of all findings
 * @param findings of every expectation in the script's order, then of whatever else went wrong
 * @param detectionMicros from the first tick with the override to the report of the fail-safe that must answer
 * @param recoveryMicros from the first tick with the override to the latest state that had to come about and did,
 *     behind the answer of the fail-safe where one must answer
 * @param marginMicros least margin in time of all findings, negative when missed; of a fail only one that was missed
 * @param injections what is known of each injection, in the script's order
 * @param reasons why it is no pass, a sentence each, and notes; empty for a plain pass
 * @param valueMargins least margin in value of each channel (or of what is counted) that has one: those that were missed
 *     first, the others behind them, both in the script's order
 * @param split detection, response and recovery, each with its tick
 * @param settledTick of a fail, the tick by which it was settled: whatever came behind it could not have mended it
 */
public record Judgement(
        Verdict verdict,
        List<Finding> findings,
        OptionalLong detectionMicros,
        OptionalLong recoveryMicros,
        OptionalLong marginMicros,
        List<InjectionFacts> injections,
        List<String> reasons,
        List<ValueMargin> valueMargins,
        Split split,
        OptionalLong settledTick) {
    /** Copies the lists. What journals of before do not have yet is empty. */
    public Judgement {
        findings = List.copyOf(findings);
        injections = List.copyOf(injections);
        reasons = List.copyOf(reasons);
        valueMargins = List.copyOf(orElse(valueMargins, List.of()));
        split = orElse(split, Split.NONE);
        settledTick = orElse(settledTick, OptionalLong.empty());
    }

    /**
     * A judgement without margins in value, and of which it is not known when it was settled.
     *
     * @param verdict the worst of all findings
     * @param findings of every expectation, then of whatever else went wrong
     * @param detectionMicros from the strike to the report of the fail-safe
     * @param recoveryMicros from the strike to the recovery state
     * @param marginMicros least margin in time of all findings
     * @param injections what is known of each injection
     * @param reasons why it is no pass, and notes
     */
    public Judgement(
            Verdict verdict,
            List<Finding> findings,
            OptionalLong detectionMicros,
            OptionalLong recoveryMicros,
            OptionalLong marginMicros,
            List<InjectionFacts> injections,
            List<String> reasons) {
        this(
                verdict,
                findings,
                detectionMicros,
                recoveryMicros,
                marginMicros,
                injections,
                reasons,
                List.of(),
                Split.NONE,
                OptionalLong.empty());
    }

    private static <T> T orElse(@Nullable T one, T other) {
        return Objects.requireNonNullElse(one, other);
    }

    /**
     * The same with more to be known first.
     *
     * @param notes to put before the reasons
     * @return with them
     */
    public Judgement noted(List<String> notes) {
        List<String> all = new ArrayList<>(notes);
        all.addAll(reasons);
        return with(verdict, findings, all, settledTick);
    }

    /**
     * The same with other findings and what follows from these for the verdict; figures stay as they are.
     *
     * @param others all findings
     * @param why to put before the reasons
     * @return with them
     */
    public Judgement withFindings(List<Finding> others, List<String> why) {
        Verdict worst = others.stream().map(Finding::verdict).reduce(Verdict.NONE, Verdict::worse);
        return with(worst, others, reasons, worst == Verdict.FAIL ? settledTick : OptionalLong.empty())
                .noted(why);
    }

    /**
     * The same without its first findings, and without the margins of these.
     *
     * @param some how many of them are left out
     * @return what the others come to
     */
    public Judgement withoutTheFirst(int some) {
        List<Finding> others = findings.subList(some, findings.size());
        Verdict worst = others.stream().map(Finding::verdict).reduce(Verdict.NONE, Verdict::worse);
        return new Judgement(
                worst,
                others,
                detectionMicros,
                recoveryMicros,
                leastMargin(others),
                injections,
                reasons,
                ValueMargin.least(others.stream().flatMap(one -> one.marginValue().stream())),
                split,
                worst == Verdict.FAIL ? settledTick : OptionalLong.empty());
    }

    /**
     * The same with another verdict.
     *
     * @param other which
     * @return with it
     */
    public Judgement as(Verdict other) {
        return with(other, findings, reasons, settledTick);
    }

    /** Of a fail only one that was missed: what others had to spare says nothing then. */
    static OptionalLong leastMargin(List<Finding> some) {
        boolean failed = some.stream().anyMatch(one -> one.verdict() == Verdict.FAIL);
        return some.stream()
                .filter(one -> one.marginMicros().isPresent())
                .mapToLong(one -> one.marginMicros().getAsLong())
                .filter(margin -> !failed || margin <= 0)
                .min();
    }

    Judgement settledBy(long tick) {
        return with(verdict, findings, reasons, OptionalLong.of(tick));
    }

    private Judgement with(
            Verdict itsVerdict, List<Finding> itsFindings, List<String> itsReasons, OptionalLong itsTick) {
        return new Judgement(
                itsVerdict,
                itsFindings,
                detectionMicros,
                recoveryMicros,
                marginMicros,
                injections,
                itsReasons,
                valueMargins,
                split,
                itsTick);
    }
}
