package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;

/** The steps in which a condition can hold. */
final class StepsOf {
    private StepsOf() {}

    /** Names of the steps; none where the condition does not speak of the step. */
    static Set<String> condition(Condition condition) {
        List<IntPredicate> all = new ArrayList<>();
        List<ChannelDescription> steps = new ArrayList<>();
        for (Condition.Term term : condition.terms()) {
            if (term instanceof Condition.Compares compares
                    && compares.channel().isStep()) {
                steps.add(compares.channel());
                all.add(value -> compares.relation().holds(value, compares.raw()));
            }
        }
        Set<String> found = new TreeSet<>();
        if (steps.isEmpty()) {
            for (Condition.Term term : condition.terms()) {
                if (term instanceof Condition.AnyOf anyOf) {
                    anyOf.alternatives().forEach(one -> found.addAll(condition(one)));
                }
            }
            return found;
        }
        List<String> names = steps.get(0).valueNames();
        IntStream.range(0, names.size())
                .filter(value -> all.stream().allMatch(one -> one.test(value)))
                .forEach(value -> found.add(names.get(value)));
        return found;
    }
}
