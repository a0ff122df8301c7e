package snagbench.bench.report.register;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.FailSafeRegister;
import snagbench.wire.ChannelKind;

/** The sensors at which a fail-safe looks. */
final class SensorsOf {
    private SensorsOf() {}

    /** Those of all conditions of the symptoms, each once. */
    static List<ChannelDescription> symptoms(FailSafeRegister.Symptoms symptoms, List<DerivedChannel> derived) {
        return symptoms.when().stream()
                .flatMap(symptom -> condition(symptom.condition(), derived).stream())
                .distinct()
                .toList();
    }

    /** The sensors that a condition looks at; behind a derived channel, what that is worked out from. */
    static List<ChannelDescription> condition(Condition condition, List<DerivedChannel> derived) {
        Set<ChannelDescription> found = new LinkedHashSet<>();
        for (Condition.Term term : condition.terms()) {
            if (term instanceof Condition.Compares compares) {
                found.addAll(sources(compares.channel(), derived));
            } else if (term instanceof Condition.Moves moves) {
                found.addAll(sources(moves.channel(), derived));
            } else if (term instanceof Condition.AnyOf anyOf) {
                anyOf.alternatives().forEach(one -> found.addAll(condition(one, derived)));
            }
        }
        return found.stream().filter(one -> one.kind() == ChannelKind.SENSOR).toList();
    }

    private static List<ChannelDescription> sources(ChannelDescription channel, List<DerivedChannel> derived) {
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
}
