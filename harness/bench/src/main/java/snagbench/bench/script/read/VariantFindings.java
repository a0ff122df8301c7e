package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import snagbench.bench.script.Place;
import snagbench.bench.script.Problem;
import snagbench.bench.script.Variant;

/**
 * The problems of all scripts that one file stands for: what is wrong with all of them is told once, as it is; what is wrong
 * with some of them is told once a place, with the first variant that has it.
 */
final class VariantFindings {
    private final Findings findings;
    private final int count;
    private final Map<Problem, List<Variant>> found = new LinkedHashMap<>();

    VariantFindings(Findings findings, int count) {
        this.findings = findings;
        this.count = count;
    }

    void add(Variant variant, Findings own) {
        own.all().forEach(problem -> found.computeIfAbsent(problem, one -> new ArrayList<>())
                .add(variant));
        findings.withholdAllOf(own);
    }

    /** Where, and how bad. */
    private record Spot(Place place, Problem.Severity severity) {}

    void report() {
        Map<Spot, Integer> some = new LinkedHashMap<>();
        Map<Spot, Problem> first = new LinkedHashMap<>();
        found.forEach((problem, variants) -> {
            if (variants.size() == count) {
                tell(problem, problem.message());
            } else {
                Spot spot = new Spot(problem.place(), problem.severity());
                first.putIfAbsent(spot, problem);
                some.merge(spot, variants.size(), Integer::sum);
            }
        });
        first.forEach((spot, problem) -> {
            int others = some.getOrDefault(spot, 1) - 1;
            String which = found.getOrDefault(problem, List.of()).get(0).show();
            tell(
                    problem,
                    "with " + which + (others == 0 ? "" : " (and " + others + " more)") + ": " + problem.message());
        });
    }

    private void tell(Problem problem, String message) {
        if (problem.severity() == Problem.Severity.ERROR) {
            findings.error(problem.place(), message, problem.cure());
        } else {
            findings.warning(problem.place(), message, problem.cure());
        }
    }
}
