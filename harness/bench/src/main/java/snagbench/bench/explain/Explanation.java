package snagbench.bench.explain;

import java.util.ArrayList;
import java.util.List;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.Stage;

/** A script in sentences. The same script gives the same text. */
public final class Explanation {
    private final FaultScript script;
    private final FaultWords faults;
    private final ExpectationWords expectations;
    private final List<String> lines = new ArrayList<>();

    private Explanation(FaultScript script, RigDescription rig) {
        this.script = script;
        this.faults = new FaultWords(rig);
        this.expectations = new ExpectationWords(script);
    }

    /**
     * Explains a script.
     *
     * @param script a script without errors
     * @param rig the rig for which it was read
     * @return its sentences, in lines of no fixed width
     */
    public static List<String> sentences(FaultScript script, RigDescription rig) {
        Explanation explanation = new Explanation(script, rig);
        explanation.head();
        explanation.begin();
        script.injections().forEach(explanation::injection);
        explanation.lines.add("What must follow:");
        for (Expectation expectation : script.expectations()) {
            explanation.lines.add("- " + explanation.expectations.of(expectation));
        }
        explanation.end();
        explanation.twin();
        return List.copyOf(explanation.lines);
    }

    /**
     * Explains a script, and draws it.
     *
     * @param script a script without errors
     * @param rig the rig for which it was read
     * @return its sentences, an empty line, and its picture
     */
    public static List<String> withPicture(FaultScript script, RigDescription rig) {
        List<String> all = new ArrayList<>(sentences(script, rig));
        all.add("");
        all.addAll(TimePicture.lines(script));
        return List.copyOf(all);
    }

    private void head() {
        String variant = script.variant().map(one -> " (" + one.show() + ")").orElse("");
        String evidence = script.failSafes().isEmpty() ? "" : ", evidence for " + names(script.failSafes());
        lines.add(Words.quoted(script.name()) + variant + evidence + ".");
        if (!script.inhibited().isEmpty()) {
            lines.add("From arming on the control code leaves out " + names(script.inhibited()) + ".");
        }
    }

    private static String names(List<FailSafeDescription> failSafes) {
        return Words.and(failSafes.stream().map(FailSafeDescription::name).toList());
    }

    private void begin() {
        List<String> stages = new ArrayList<>();
        for (Stage stage : script.begin()) {
            if (stage instanceof Stage.Send send) {
                stages.add(send.command().name() + " is sent");
            } else if (stage instanceof Stage.WaitFor wait) {
                stages.add("it is waited until " + Words.holds(wait.condition()) + ", "
                        + Words.time(wait.withinMicros()) + " at most");
            }
        }
        if (!stages.isEmpty()) {
            lines.add("First " + String.join(", then ", stages) + ".");
        }
    }

    private void injection(Injection injection) {
        lines.add(words(injection));
    }

    /** The script that must not pass, where the point of this one is that a fail-safe keeps quiet. */
    private void twin() {
        for (int index = 0; index < script.twin().size(); index++) {
            Injection other = script.twin().get(index);
            if (!other.equals(script.injections().get(index))) {
                lines.add("In its twin, in which the fail-safe must answer: " + words(other));
            }
        }
    }

    private String words(Injection injection) {
        String does = Words.and(injection.forcings().stream().map(faults::of).toList());
        return Words.sentence(TriggerWords.of(injection.trigger())) + ", "
                + does
                + (injection.lastsMicros().isPresent()
                                || injection.until().isPresent()
                                || injection.whileHolds().isPresent()
                        ? ends(injection)
                        : Spikes.onlyIn(injection) ? "" : ", to the script's end")
                + "." + called(injection);
    }

    private static String called(Injection injection) {
        return injection.name().matches("injection [0-9]+") ? "" : " This is " + Words.quoted(injection.name()) + ".";
    }

    private static String ends(Injection injection) {
        List<String> ways = new ArrayList<>();
        injection.whileHolds().ifPresent(one -> ways.add("as long as " + Words.holds(one)));
        injection.until().ifPresent(one -> ways.add("until " + Words.holds(one)));
        if (injection.lastsMicros().isPresent()) {
            String time = Words.time(injection.lastsMicros().getAsLong());
            ways.add(ways.isEmpty() ? "for " + time : "for " + time + " at most");
        }
        return ", " + String.join(", ", ways);
    }

    private void end() {
        script.end()
                .ifPresent(end -> lines.add("The script ends " + Words.time(end.micros()) + " after "
                        + Words.moment(end.after(), script) + "."));
    }
}
