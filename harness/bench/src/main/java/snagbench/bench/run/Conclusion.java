package snagbench.bench.run;

import java.util.List;
import java.util.Optional;
import snagbench.bench.evidence.Repeats;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.Place;

/**
 * What one row of a plan came to: all runs of one script, with its repeats and variants, and their control runs.
 *
 * @param script the script's name
 * @param place where the script is written
 * @param runs indexes of its fault runs, in order
 * @param verdict the worst of its runs, after their control runs
 * @param inconsistent true if the very same script both passed and failed: that is shown, never averaged away
 * @param reasons why it is no pass although runs of it passed, a sentence each
 * @param controls what its control runs say
 * @param repeats what its runs show together; empty for a script that was to run once, and for moments that were not repeated
 */
public record Conclusion(
        String script,
        Place place,
        List<Integer> runs,
        Verdict verdict,
        boolean inconsistent,
        List<String> reasons,
        List<ControlCheck> controls,
        Optional<Repeats> repeats) {
    /** Copies the lists. */
    public Conclusion {
        runs = List.copyOf(runs);
        reasons = List.copyOf(reasons);
        controls = List.copyOf(controls);
    }
}
