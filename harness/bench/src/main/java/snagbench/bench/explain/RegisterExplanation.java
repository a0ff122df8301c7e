package snagbench.bench.explain;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.Source;

/** A fail-safe register in sentences: what each fail-safe is for, what it looks for, and what it does. */
public final class RegisterExplanation {
    private RegisterExplanation() {}

    /**
     * Explains a register.
     *
     * @param register a register without errors
     * @return its sentences, in lines of no fixed width
     */
    public static List<String> lines(FailSafeRegister register) {
        List<String> lines = new ArrayList<>();
        String by = register.severityBy().isEmpty() ? "" : ", their severity by " + register.severityBy();
        lines.add("Rig " + register.rig() + " has "
                + Words.counted(register.entries().size(), "fail-safe") + by + ".");
        register.entries().forEach(entry -> lines.addAll(entry(entry)));
        return List.copyOf(lines);
    }

    private static List<String> entry(FailSafeRegister.Entry entry) {
        List<String> lines = new ArrayList<>();
        lines.add("");
        lines.add(entry.failSafe().name() + " " + entry.title() + " (" + entry.severity() + ")");
        lines.add("  Why    " + stop(entry.cause()) + " Without it: " + stop(entry.effect()));
        lines.add("  Sees   " + stop(entry.symptoms().words()));
        entry.symptoms()
                .when()
                .forEach(one -> lines.add("         - when " + Words.holds(one.condition())
                        + (one.heldMicros() == 0 ? "" : ", for " + Words.time(one.heldMicros()))
                        + (one.stepLastedMicros() == 0
                                ? ""
                                : ", once the step has lasted " + Words.time(one.stepLastedMicros()))));
        if (!entry.symptoms().beside().isEmpty()) {
            lines.add("         beside that, which no channel shows: "
                    + stop(entry.symptoms().beside()));
        }
        lines.add("  Does   " + stop(entry.response()));
        FailSafeRegister.Recovery recovery = entry.recovery();
        lines.add("  Then   " + Words.reading(recovery.channel(), Source.REAL) + " is "
                + String.join(
                        " or ",
                        recovery.values().stream()
                                .map(value -> Words.value(recovery.channel(), value))
                                .toList())
                + ", within " + Words.time(recovery.withinMicros()) + " of the first tick with the trouble.");
        entry.costs()
                .reserve()
                .ifPresent(window -> lines.add("  Costs  " + Words.time(window.leastMicros()) + " to "
                        + Words.time(window.mostMicros()) + " of the run's reserve."));
        if (!entry.costs().words().isEmpty()) {
            lines.add("  Costs  " + stop(entry.costs().words()));
        }
        lines.add("  Proved by " + (entry.scripts().isEmpty() ? "no script yet." : names(entry.scripts()) + "."));
        return lines;
    }

    private static String names(List<Path> scripts) {
        return String.join(
                ", ",
                scripts.stream()
                        .map(script -> String.valueOf(script.getFileName()).replace(".fault.yaml", ""))
                        .toList());
    }

    private static String stop(String text) {
        String line = text.strip().replaceAll("\\s+", " ");
        return Words.sentence(line) + (line.endsWith(".") ? "" : ".");
    }
}
