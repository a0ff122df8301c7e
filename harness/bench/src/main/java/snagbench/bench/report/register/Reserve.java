package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.LongSummaryStatistics;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.Role;
import snagbench.bench.run.ScriptResult;

/**
 * Which recoveries a run can afford: one, two or three of them, the same one more than once too, each at its greatest cost. That
 * one recovery costs the same whatever came before it is an assumption.
 *
 * @param reserveMicros what they may cost together, in microseconds
 * @param costs of each fail-safe that costs time
 * @param notTimes fail-safes that cost something else, or of which no time is known, with why
 * @param combinations of one, of two, of three, in that order
 */
public record Reserve(long reserveMicros, List<Cost> costs, List<String> notTimes, List<Combination> combinations) {
    /** Copies the lists. */
    public Reserve {
        costs = List.copyOf(costs);
        notTimes = List.copyOf(notTimes);
        combinations = List.copyOf(combinations);
    }

    /**
     * What a recovery costs.
     *
     * @param failSafe its name
     * @param leastMicros least, in microseconds
     * @param micros greatest, in microseconds
     * @param basis where that comes from
     * @param runs how many runs tell it; 0 where it is the register's word
     * @param against what it was measured against; empty where it was not
     * @param register what the register says, where it is not its word
     * @param except where it costs more than time; may be empty
     */
    public record Cost(
            String failSafe,
            long leastMicros,
            long micros,
            Basis basis,
            int runs,
            String against,
            Optional<RegisterSheet.Cost> register,
            String except) {}

    /** Where a cost comes from. */
    public enum Basis {
        /** This run, against nominal runs of the same seeds. */
        MEASURED,
        /** The register: measured against nominal runs of the same seeds, by whoever wrote it. */
        REGISTER,
        /** This run: the longest time from the fault to the recovery state. What has to be made again behind it is not in it. */
        RECOVERY_SEEN
    }

    /**
     * Some recoveries in one run.
     *
     * @param failSafes names, in order; one may come again
     * @param micros what they cost together, in microseconds
     * @param fits whether that is within the reserve
     */
    public record Combination(List<String> failSafes, long micros, boolean fits) {
        /** Copies the list. */
        public Combination {
            failSafes = List.copyOf(failSafes);
        }

        /**
         * In words.
         *
         * @return such as "FS-03 twice and FS-07 once"
         */
        public String words() {
            Map<String, Integer> counts = new LinkedHashMap<>();
            failSafes.forEach(name -> counts.merge(name, 1, Integer::sum));
            return counts.entrySet().stream()
                    .map(one -> one.getKey() + " "
                            + List.of("once", "twice", "three times").get(one.getValue() - 1))
                    .collect(Collectors.joining(" and "));
        }
    }

    /**
     * Works out what fits.
     *
     * @param sheet what register and plan said
     * @param results what came of the scripts, for fail-safes of which the register gives neither time nor words
     * @return the table
     */
    public static Reserve of(RegisterSheet sheet, List<ScriptResult> results) {
        List<Cost> costs = new ArrayList<>();
        List<String> notTimes = new ArrayList<>();
        for (RegisterSheet.FailSafe failSafe : sheet.failSafes()) {
            cost(sheet, failSafe, results)
                    .ifPresentOrElse(
                            costs::add,
                            () -> notTimes.add(failSafe.name() + ": "
                                    + (failSafe.costs().isEmpty() ? "not known" : failSafe.costs())));
        }
        return new Reserve(sheet.reserveMicros(), costs, notTimes, combinations(costs, sheet.reserveMicros()));
    }

    /** What was measured goes before the register's word; but what costs no time by that is not given one. */
    private static Optional<Cost> cost(
            RegisterSheet sheet, RegisterSheet.FailSafe failSafe, List<ScriptResult> results) {
        String name = failSafe.name();
        LongSummaryStatistics measured = sheet.measured().stream()
                .filter(one -> one.failSafe().equals(name))
                .mapToLong(RegisterSheet.Measured::micros)
                .summaryStatistics();
        boolean isTime = failSafe.reserve().isPresent() || failSafe.costs().isEmpty();
        if (isTime && measured.getCount() > 0) {
            return Optional.of(new Cost(
                    name,
                    Math.max(0, measured.getMin()),
                    Math.max(0, measured.getMax()),
                    Basis.MEASURED,
                    (int) measured.getCount(),
                    against(sheet, name),
                    failSafe.reserve(),
                    failSafe.costs()));
        }
        if (failSafe.reserve().isPresent()) {
            RegisterSheet.Cost told = failSafe.reserve().get();
            return Optional.of(new Cost(
                    name,
                    told.leastMicros(),
                    told.mostMicros(),
                    Basis.REGISTER,
                    0,
                    "",
                    Optional.empty(),
                    failSafe.costs()));
        }
        return isTime
                ? longestSeen(name, results)
                        .map(seen -> new Cost(name, seen, seen, Basis.RECOVERY_SEEN, 1, "", Optional.empty(), ""))
                : Optional.empty();
    }

    private static String against(RegisterSheet sheet, String failSafe) {
        return sheet.measured().stream()
                .filter(one -> one.failSafe().equals(failSafe))
                .map(RegisterSheet.Measured::against)
                .distinct()
                .collect(Collectors.joining(", "));
    }

    /** Of scripts that are about this one alone. */
    private static Optional<Long> longestSeen(String failSafe, List<ScriptResult> results) {
        return results.stream()
                .filter(result ->
                        result.role() == Role.FAULT && result.failSafes().equals(List.of(failSafe)))
                .filter(result -> result.judgement().verdict() == Verdict.PASS)
                .filter(result -> result.judgement().recoveryMicros().isPresent())
                .map(result -> result.judgement().recoveryMicros().getAsLong())
                .max(Long::compare);
    }

    private static List<Combination> combinations(List<Cost> costs, long reserve) {
        List<Combination> all = new ArrayList<>();
        for (int most = 1; most <= 3; most++) {
            add(costs, 0, most, List.of(), 0, reserve, all);
        }
        return all;
    }

    private static void add(
            List<Cost> costs, int from, int more, List<String> names, long micros, long reserve, List<Combination> to) {
        if (more == 0) {
            to.add(new Combination(names, micros, micros <= reserve));
            return;
        }
        for (int i = from; i < costs.size(); i++) {
            List<String> longer = new ArrayList<>(names);
            longer.add(costs.get(i).failSafe());
            add(costs, i, more - 1, longer, micros + costs.get(i).micros(), reserve, to);
        }
    }

    /**
     * How many recoveries of one run are in a combination that fits.
     *
     * @param recoveries 1 to 3
     * @return how many combinations of so many fit
     */
    public long fitting(int recoveries) {
        return of(recoveries).stream().filter(Combination::fits).count();
    }

    /**
     * The combinations of so many recoveries.
     *
     * @param recoveries 1 to 3
     * @return in the register's order
     */
    public List<Combination> of(int recoveries) {
        return combinations.stream()
                .filter(one -> one.failSafes().size() == recoveries)
                .toList();
    }

    /**
     * What does not fit, though with any recovery less it would.
     *
     * @return the least that is too much
     */
    public List<Combination> leastTooMuch() {
        Map<String, Long> micros = costs.stream().collect(Collectors.toMap(Cost::failSafe, Cost::micros));
        return combinations.stream()
                .filter(one -> !one.fits())
                .filter(one -> one.failSafes().stream()
                        .allMatch(name -> one.micros() - Objects.requireNonNull(micros.get(name)) <= reserveMicros))
                .toList();
    }
}
