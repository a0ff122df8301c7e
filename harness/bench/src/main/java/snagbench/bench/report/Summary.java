package snagbench.bench.report;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.RunEnd;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;

/**
 * A run in figures, by what its scripts come to after their control runs.
 *
 * @param planned how many runs of scripts were planned
 * @param counts how many came to each verdict; what was not run is "none"
 * @param worst the worst verdict among those that were run
 * @param rigMicros time on the rig's clock, in microseconds
 */
public record Summary(int planned, Map<Verdict, Integer> counts, Verdict worst, long rigMicros) {
    /** Copies the map. */
    public Summary {
        counts = Map.copyOf(counts);
    }

    /**
     * Sums up a run.
     *
     * @param run as its journal tells it
     * @return its figures
     */
    public static Summary of(RunRecord run) {
        Map<Verdict, Integer> counts = new EnumMap<>(Verdict.class);
        Verdict worst = Verdict.NONE;
        long rigMicros = 0;
        for (ScriptResult result : run.concluded().results()) {
            Verdict verdict = result.judgement().verdict();
            counts.merge(verdict, 1, Integer::sum);
            worst = worst.worse(verdict);
            rigMicros += result.rigMicros();
        }
        int notRun = run.notRun().size();
        if (notRun > 0) {
            counts.merge(Verdict.NONE, notRun, Integer::sum);
        }
        if (run.end().map(end -> end.cause() == RunEnd.Cause.RIG).orElse(false)) {
            worst = worst.worse(Verdict.ERROR);
        }
        return new Summary(run.header().planned().size(), counts, worst, rigMicros);
    }

    /**
     * How many came to a verdict.
     *
     * @param verdict which
     * @return from 0 on
     */
    public int count(Verdict verdict) {
        return counts.getOrDefault(verdict, 0);
    }

    /**
     * The figures in words.
     *
     * @return such as "9 scripts: 8 pass, 1 fail"
     */
    public String words() {
        List<String> parts = new ArrayList<>();
        for (Verdict verdict : List.of(Verdict.PASS, Verdict.INCONCLUSIVE, Verdict.FAIL, Verdict.ERROR)) {
            if (count(verdict) > 0) {
                parts.add(count(verdict) + " " + verdict.word());
            }
        }
        if (count(Verdict.NONE) > 0) {
            parts.add(count(Verdict.NONE) + " not run");
        }
        return planned + (planned == 1 ? " script: " : " scripts: ") + String.join(", ", parts);
    }
}
