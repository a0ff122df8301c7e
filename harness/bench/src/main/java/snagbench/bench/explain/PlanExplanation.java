package snagbench.bench.explain;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.Between;
import snagbench.bench.script.Claim;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.TestPlan;

/** A test plan in sentences: what is run, how long that takes at most, and what it is evidence for. */
public final class PlanExplanation {
    private final TestPlan plan;
    private final List<Item> items;
    private final List<String> lines = new ArrayList<>();

    private PlanExplanation(TestPlan plan, List<Item> items) {
        this.plan = plan;
        this.items = items;
    }

    /**
     * What one entry of the plan comes to.
     *
     * @param scripts those of its file, at least one
     * @param runs how often each of them is run, from 1
     */
    public record Item(List<FaultScript> scripts, int runs) {
        /** Copies the list. */
        public Item {
            scripts = List.copyOf(scripts);
        }

        private int all() {
            return scripts.size() * runs;
        }
    }

    /**
     * Explains a plan.
     *
     * @param plan a plan without errors, with the condition of what holds between two runs
     * @param items one for each script that it names, in its order
     * @param rig the rig for which the scripts were read
     * @return its sentences, in lines of no fixed width
     */
    public static List<String> lines(TestPlan plan, List<Item> items, RigDescription rig) {
        PlanExplanation explanation = new PlanExplanation(plan, items);
        explanation.head();
        explanation.between();
        explanation.scripts();
        explanation.needs();
        explanation.evidence(rig);
        return List.copyOf(explanation.lines);
    }

    private void head() {
        int scripts = items.stream().mapToInt(item -> item.scripts().size()).sum();
        int runs = items.stream().mapToInt(Item::all).sum();
        String build = plan.build().map(name -> ", build " + Words.quoted(name)).orElse("");
        lines.add(Words.quoted(plan.name()) + " is for rig " + plan.rig() + build + ": "
                + Words.counted(items.size(), "file") + ", " + Words.counted(scripts, "script") + ", "
                + Words.counted(runs, "run") + ".");
        lines.add("A run of the machine is " + Words.time(plan.runTimeMicros()) + "; recoveries may cost "
                + Words.time(plan.reserveMicros()) + " of it in all.");
        lines.add("No script is listened to for longer than that after its beginning, so that all of it takes "
                + Words.longTime(runs * plan.runTimeMicros())
                + " on the rig's clock at most; most scripts end much sooner.");
        if (plan.controls().noFault()) {
            lines.add(
                    "On top of that, each script that passes is run without its fault: then its fail-safes must keep quiet.");
        }
        if (plan.controls().inhibited()) {
            lines.add(
                    "On top of that, each script that passes is run with each fail-safe left out that it names: then it must"
                            + " not pass. One whose point is that a fail-safe keeps quiet is run as its twin over the limit.");
        }
        if (plan.adequacy().any()) {
            List<String> changes = new ArrayList<>();
            if (plan.adequacy().failSafes()) {
                changes.add("each fail-safe left out");
            }
            if (plan.adequacy().constants()) {
                changes.add("each adjustable constant a little lower and a little higher");
            }
            lines.add("At the end the control code is changed, one thing at a time, and some script must notice: "
                    + Words.and(changes) + ".");
        }
    }

    private void between() {
        Between between = plan.between();
        int runs = items.stream().mapToInt(Item::all).sum();
        boolean more = plan.controls().noFault()
                || plan.controls().inhibited()
                || plan.adequacy().any();
        if (between.restMicros() > 0) {
            String all = runs == 1 ? "" : ": " + Words.longTime((runs - 1) * between.restMicros()) + " in all";
            lines.add("Between two runs the rig rests for " + Words.longTime(between.restMicros()) + all
                    + (more ? ", and as long before each of those on top." : "."));
        }
        between.startOnlyIf()
                .ifPresent(condition -> lines.add("A run starts only when the rig's real readings tell that "
                        + Words.holds(condition) + ". If that has not come about after "
                        + Words.longTime(between.giveUpMicros())
                        + ", the plan ends, and what is left of it is not run."));
    }

    private void scripts() {
        lines.add("In this order:");
        int number = 0;
        for (Item item : items) {
            number++;
            FaultScript script = item.scripts().get(0);
            String variants =
                    item.scripts().size() == 1 ? "" : ", " + item.scripts().size() + " scripts";
            String runs = item.runs() == 1 ? "" : ", " + item.runs() + " times";
            String evidence = script.failSafes().isEmpty() ? "" : ", for " + names(script.failSafes());
            String claim = plan.scripts()
                    .get(number - 1)
                    .claim()
                    .map(PlanExplanation::words)
                    .orElse("");
            lines.add(String.format("%3d  %s%s%s%s%s", number, script.name(), variants, runs, evidence, claim));
        }
    }

    private static String words(Claim claim) {
        String failures = claim.failuresAllowed() == 0
                ? ""
                : ", " + Words.counted(claim.failuresAllowed(), "failure") + " allowed";
        return String.format(
                Locale.ROOT,
                "; to show, with %s %% confidence, that %s %% of such runs pass%s",
                percent(claim.confidence()),
                percent(claim.reliability()),
                failures);
    }

    private static String percent(double share) {
        return new BigDecimal(Double.toString(share))
                .movePointRight(2)
                .stripTrailingZeros()
                .toPlainString();
    }

    private static String names(List<FailSafeDescription> failSafes) {
        return Words.and(failSafes.stream().map(FailSafeDescription::name).toList());
    }

    private void needs() {
        Map<FaultScript.Need, Integer> needs = new LinkedHashMap<>();
        for (Item item : items) {
            item.scripts().get(0).needs().forEach(need -> needs.merge(need, 1, Integer::sum));
        }
        if (!needs.isEmpty()) {
            lines.add("Of a real rig it needs "
                    + Words.and(needs.entrySet().stream()
                            .map(entry -> entry.getKey().word() + " (" + Words.counted(entry.getValue(), "file") + ")")
                            .toList())
                    + "; what is not granted is left out.");
        }
    }

    private void evidence(RigDescription rig) {
        Map<String, Set<String>> proof = new LinkedHashMap<>();
        rig.failSafes().forEach(failSafe -> proof.put(failSafe.name(), new LinkedHashSet<>()));
        for (Item item : items) {
            FaultScript script = item.scripts().get(0);
            script.failSafes().forEach(failSafe -> Optional.ofNullable(proof.get(failSafe.name()))
                    .ifPresent(names -> names.add(script.name())));
        }
        lines.add("Evidence for:");
        proof.forEach((failSafe, names) -> {
            if (!names.isEmpty()) {
                lines.add("  " + failSafe + "  " + String.join(", ", names));
            }
        });
        List<String> none = proof.entrySet().stream()
                .filter(entry -> entry.getValue().isEmpty())
                .map(Map.Entry::getKey)
                .toList();
        if (!none.isEmpty()) {
            lines.add("For " + Words.and(none) + " no script of the plan is evidence.");
        }
    }
}
