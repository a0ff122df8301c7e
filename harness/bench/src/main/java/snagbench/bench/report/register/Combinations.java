package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.wire.ChannelKind;

/**
 * Which kinds of fault a plan tries on the sensors at which fail-safes look, step by step. An injection counts for the steps
 * that its own trigger names; one that names none counts nowhere, since when it strikes is only known on the rig.
 */
final class Combinations {
    private static final List<String> FOR_FIGURES =
            List.of("stuck-at", "freeze", "offset", "spike", "scale", "drift", "noise", "dropout", "delay", "replay");
    /** Values that have names cannot be reckoned with. */
    private static final List<String> FOR_NAMES = List.of("stuck-at", "freeze", "spike", "dropout", "delay", "replay");

    private final List<DerivedChannel> derived;
    private final Map<Spot, Set<String>> lookers = new TreeMap<>();
    private final Map<Spot, ChannelDescription> channels = new TreeMap<>();
    private final Map<Spot, Set<String>> tried = new TreeMap<>();

    private Combinations(List<DerivedChannel> derived) {
        this.derived = derived;
    }

    private record Spot(String step, String channel) implements Comparable<Spot> {
        @Override
        public int compareTo(Spot other) {
            int steps = step.compareTo(other.step);
            return steps != 0 ? steps : channel.compareTo(other.channel);
        }
    }

    static List<RegisterSheet.Combination> of(
            FailSafeRegister register, List<DerivedChannel> derived, List<FaultScript> scripts) {
        Combinations combinations = new Combinations(derived);
        register.entries().forEach(entry -> entry.symptoms()
                .when()
                .forEach(symptom -> combinations.look(entry.failSafe().name(), symptom.condition())));
        scripts.forEach(script -> script.injections().forEach(combinations::take));
        return combinations.all();
    }

    private void look(String failSafe, Condition condition) {
        for (String step : StepsOf.condition(condition)) {
            for (ChannelDescription sensor : sensors(condition)) {
                Spot spot = new Spot(step, sensor.name());
                lookers.computeIfAbsent(spot, one -> new LinkedHashSet<>()).add(failSafe);
                channels.put(spot, sensor);
            }
        }
    }

    private void take(Injection injection) {
        for (String step : StepsOf.condition(injection.trigger().when())) {
            for (Injection.Forcing forcing : injection.forcings()) {
                Spot spot = new Spot(step, forcing.channel().name());
                tried.computeIfAbsent(spot, one -> new TreeSet<>()).add(kind(forcing.fault()));
            }
        }
    }

    private List<RegisterSheet.Combination> all() {
        List<RegisterSheet.Combination> all = new ArrayList<>();
        lookers.forEach((spot, failSafes) -> {
            ChannelDescription channel = java.util.Objects.requireNonNull(channels.get(spot));
            List<String> possible = channel.valueNames().isEmpty() ? FOR_FIGURES : FOR_NAMES;
            Set<String> done = tried.getOrDefault(spot, Set.of());
            all.add(new RegisterSheet.Combination(
                    spot.step(),
                    spot.channel(),
                    List.copyOf(failSafes),
                    possible.stream().filter(done::contains).toList(),
                    possible.stream().filter(kind -> !done.contains(kind)).toList()));
        });
        return all;
    }

    /** The sensors that a condition looks at; behind a derived channel, what that is worked out from. */
    private List<ChannelDescription> sensors(Condition condition) {
        Set<ChannelDescription> found = new LinkedHashSet<>();
        for (Condition.Term term : condition.terms()) {
            if (term instanceof Condition.Compares compares) {
                found.addAll(sources(compares.channel()));
            } else if (term instanceof Condition.Moves moves) {
                found.addAll(sources(moves.channel()));
            } else if (term instanceof Condition.AnyOf anyOf) {
                anyOf.alternatives().forEach(one -> found.addAll(sensors(one)));
            }
        }
        return found.stream().filter(one -> one.kind() == ChannelKind.SENSOR).toList();
    }

    private List<ChannelDescription> sources(ChannelDescription channel) {
        for (DerivedChannel one : derived) {
            if (one.channel().equals(channel)) {
                return of(one.formula(), channel);
            }
        }
        return List.of(channel);
    }

    private static List<ChannelDescription> of(DerivedChannel.Formula formula, ChannelDescription itself) {
        if (formula instanceof DerivedChannel.Rate rate) {
            return List.of(rate.of());
        }
        if (formula instanceof DerivedChannel.Stalled stalled) {
            return List.of(stalled.of());
        }
        if (formula instanceof DerivedChannel.Difference difference) {
            return List.of(difference.of(), difference.less());
        }
        if (formula instanceof DerivedChannel.Sum sum) {
            return List.of(sum.of(), sum.and());
        }
        if (formula instanceof DerivedChannel.Mean mean) {
            return List.of(mean.of());
        }
        return List.of(formula instanceof DerivedChannel.RootMeanSquare rms ? rms.of() : itself);
    }

    private static String kind(Fault fault) {
        if (fault instanceof Fault.StuckAt) {
            return "stuck-at";
        }
        return fault.getClass().getSimpleName().toLowerCase(java.util.Locale.ROOT);
    }
}
