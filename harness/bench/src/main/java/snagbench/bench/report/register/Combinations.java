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
            for (ChannelDescription sensor : SensorsOf.condition(condition, derived)) {
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

    private static String kind(Fault fault) {
        if (fault instanceof Fault.StuckAt) {
            return "stuck-at";
        }
        return fault.getClass().getSimpleName().toLowerCase(java.util.Locale.ROOT);
    }
}
