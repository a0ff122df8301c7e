package snagbench.bench.script.write;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stage;
import snagbench.bench.script.Trigger;
import snagbench.wire.ChannelKind;

/**
 * Writes a fault script as the file that {@code script.read} reads back into an equal one, but for places. Names are always
 * written, quantities in the channels' own units. A script of a file that varies something is written as it stands, with its
 * own values.
 */
public final class ScriptWriter {
    private final FaultScript script;
    private final Lines lines = new Lines();
    private final ConditionText conditions;

    private ScriptWriter(FaultScript script) {
        this.script = script;
        Set<ChannelDescription> overridden = new HashSet<>();
        for (Injection injection : script.injections()) {
            injection.forcings().forEach(forcing -> overridden.add(forcing.channel()));
        }
        this.conditions = new ConditionText(overridden);
    }

    /**
     * Writes a script.
     *
     * @param script a script without errors
     * @return the file's text
     */
    public static String yaml(FaultScript script) {
        ScriptWriter writer = new ScriptWriter(script);
        writer.head();
        writer.derived();
        writer.begin();
        writer.lines.add(0, "inject:");
        for (int i = 0; i < script.injections().size(); i++) {
            writer.injection(script.injections().get(i));
            if (!script.twin().isEmpty()) {
                writer.twin(script.injections().get(i), script.twin().get(i));
            }
        }
        writer.lines.add(0, "expect:");
        ExpectationText expectations = new ExpectationText(writer.lines, writer.conditions);
        script.expectations().forEach(expectations::add);
        script.end()
                .ifPresent(end -> writer.lines.add(
                        0, "end", Lines.text(Figures.time(end.micros()) + " after " + nameOf(end.after()))));
        return writer.lines.toString();
    }

    private void head() {
        lines.add(0, "fault-script", Lines.text(script.name()));
        if (!script.failSafes().isEmpty()) {
            lines.add(0, "failsafe", names(script.failSafes()));
        }
        if (!script.why().isEmpty()) {
            lines.add(0, "why: |-");
            script.why().lines().forEach(line -> lines.add(1, line));
        }
        if (!script.needs().isEmpty()) {
            lines.add(
                    0,
                    "needs",
                    script.needs().stream()
                            .sorted()
                            .map(FaultScript.Need::word)
                            .collect(Collectors.joining(", ", "[", "]")));
        }
        if (!script.inhibited().isEmpty()) {
            lines.add(0, "inhibit", names(script.inhibited()));
        }
    }

    private static String names(List<FailSafeDescription> failSafes) {
        return failSafes.stream().map(one -> Lines.text(one.name())).collect(Collectors.joining(", ", "[", "]"));
    }

    private static String nameOf(Anchor anchor) {
        if (anchor instanceof Anchor.OfInjection injection) {
            return injection.name();
        }
        return anchor instanceof Anchor.OfExpectation expectation ? expectation.name() : "begin";
    }

    /** Those of the script itself: those of the rig's file stand there. */
    private void derived() {
        List<DerivedChannel> own = script.derived().stream()
                .filter(one -> one.place().file().equals(script.place().file()))
                .toList();
        if (!own.isEmpty()) {
            lines.add(0, "derived:");
            own.forEach(one -> lines.add(1, one.channel().name(), formula(one.formula())));
        }
    }

    private String formula(DerivedChannel.Formula formula) {
        if (formula instanceof DerivedChannel.Rate one) {
            return over("rate-of", one.of(), one.source(), one.overMicros());
        }
        if (formula instanceof DerivedChannel.Mean one) {
            return over("mean-of", one.of(), one.source(), one.overMicros());
        }
        if (formula instanceof DerivedChannel.RootMeanSquare one) {
            return over("rms-of", one.of(), one.source(), one.overMicros());
        }
        if (formula instanceof DerivedChannel.Difference one) {
            return "{ difference: [" + conditions.reading(one.of(), one.source()) + ", "
                    + conditions.reading(one.less(), one.lessSource()) + "] }";
        }
        if (formula instanceof DerivedChannel.Sum one) {
            return "{ sum: [" + conditions.reading(one.of(), one.source()) + ", "
                    + conditions.reading(one.and(), one.andSource()) + "] }";
        }
        if (formula instanceof DerivedChannel.Stalled one) {
            return "{ stalled: " + conditions.reading(one.of(), one.source()) + ", less-than: "
                    + Lines.text(Figures.value(one.of(), one.raw())) + ", over: " + Figures.time(one.overMicros())
                    + ", while: " + conditions.of(one.driven()) + " }";
        }
        DerivedChannel.Debounced debounced = (DerivedChannel.Debounced) formula;
        return "{ debounced: " + conditions.of(debounced.condition()) + ", for: " + Figures.time(debounced.forMicros())
                + " }";
    }

    private String over(String kind, ChannelDescription of, Source source, long overMicros) {
        return "{ " + kind + ": " + conditions.reading(of, source) + ", over: " + Figures.time(overMicros) + " }";
    }

    private void begin() {
        if (script.begin().isEmpty()) {
            return;
        }
        lines.add(0, "begin:");
        for (Stage stage : script.begin()) {
            if (stage instanceof Stage.Send send) {
                lines.add(1, "- send: " + Lines.text(send.command().name()));
            } else if (stage instanceof Stage.WaitFor wait) {
                lines.add(1, "- wait-for: " + conditions.of(wait.condition()));
                lines.add(2, "within", Figures.time(wait.withinMicros()));
            }
        }
    }

    private void injection(Injection injection) {
        lines.add(1, "- name: " + Lines.text(injection.name()));
        trigger(injection.trigger());
        does(injection, 2);
    }

    /** Only what is otherwise: what stands there takes the place of what the injection says under the same key. */
    private void twin(Injection injection, Injection twin) {
        if (!injection.equals(twin)) {
            lines.add(2, "twin:");
            does(twin, 3);
        }
    }

    private void does(Injection injection, int depth) {
        Map<ChannelDescription, List<String>> channels = new LinkedHashMap<>();
        for (Injection.Forcing forcing : injection.forcings()) {
            channels.computeIfAbsent(forcing.channel(), one -> new ArrayList<>())
                    .add(FaultText.of(forcing));
        }
        forced("channels", channels, false, depth);
        forced("disturb", channels, true, depth);
        injection.whileHolds().ifPresent(condition -> lines.add(depth, "while", conditions.of(condition)));
        injection.until().ifPresent(condition -> lines.add(depth, "until", conditions.of(condition)));
        injection.lastsMicros().ifPresent(micros -> lines.add(depth, "lasts", Figures.time(micros)));
    }

    private void forced(String key, Map<ChannelDescription, List<String>> channels, boolean disturbances, int depth) {
        boolean isFirst = true;
        for (Map.Entry<ChannelDescription, List<String>> entry : channels.entrySet()) {
            List<String> faults = entry.getValue();
            String stuck = "stuck-at ";
            boolean plain = entry.getKey().kind() == ChannelKind.DISTURBANCE
                    && faults.size() == 1
                    && faults.get(0).startsWith(stuck);
            if (plain == disturbances) {
                if (isFirst) {
                    lines.add(depth, key + ":");
                    isFirst = false;
                }
                String value = plain
                        ? Lines.text(faults.get(0).substring(stuck.length()))
                        : faults.size() == 1 ? faults.get(0) : "[" + String.join(", ", faults) + "]";
                lines.add(depth + 1, entry.getKey().name(), value);
            }
        }
    }

    private void trigger(Trigger trigger) {
        if (!(trigger.after() instanceof Anchor.OfBegin)
                || trigger.when().terms().isEmpty()) {
            lines.add(2, "after", ExpectationText.anchor(trigger.after()));
        }
        if (!trigger.when().terms().isEmpty()) {
            lines.add(2, "when", conditions.of(trigger.when()));
        }
        if (trigger.forMicros() > 0) {
            lines.add(2, "for", Figures.time(trigger.forMicros()));
        }
        if (trigger.delayMicros() > 0) {
            lines.add(2, "delay", Figures.time(trigger.delayMicros()));
        }
        if (trigger.occasion() > 1) {
            lines.add(2, "count", Integer.toString(trigger.occasion()));
        }
        if (trigger.times() == 0) {
            lines.add(2, "every-time", "true");
        } else if (trigger.times() > 1) {
            lines.add(2, "at-most-times", Integer.toString(trigger.times()));
        }
    }
}
