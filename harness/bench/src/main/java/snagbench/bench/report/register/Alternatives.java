package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Condition;

/** A condition taken apart into boxes, in any of which it holds. */
final class Alternatives {
    /** More of one condition are not taken apart: each "any-of" multiplies them. */
    static final int MOST = 10_000;

    private Alternatives() {}

    /** Whether it is made of comparisons with fixed values alone, however many boxes they come to. */
    static boolean isPlain(Condition condition) {
        return condition.terms().stream()
                .allMatch(term -> term instanceof Condition.Compares
                        || (term instanceof Condition.AnyOf anyOf
                                && anyOf.alternatives().stream().allMatch(Alternatives::isPlain)));
    }

    /**
     * Empty where a term is more than a comparison with a fixed value, so that one tick's readings do not decide it; and where it
     * comes to more than {@link #MOST}.
     */
    static Optional<List<Box>> of(Condition condition) {
        List<Box> all = List.of(Box.ANYTHING);
        for (Condition.Term term : condition.terms()) {
            Optional<List<Box>> options = of(term);
            if (options.isEmpty()) {
                return Optional.empty();
            }
            List<Box> both = new ArrayList<>();
            for (Box before : all) {
                options.get().forEach(option -> before.and(option).ifPresent(both::add));
                if (both.size() > MOST) {
                    return Optional.empty();
                }
            }
            all = both;
        }
        return Optional.of(all);
    }

    private static Optional<List<Box>> of(Condition.Term term) {
        if (term instanceof Condition.Compares compares) {
            return Optional.of(of(compares));
        }
        if (!(term instanceof Condition.AnyOf anyOf)) {
            return Optional.empty();
        }
        List<Box> options = new ArrayList<>();
        for (Condition one : anyOf.alternatives()) {
            Optional<List<Box>> boxes = of(one);
            if (boxes.isEmpty() || options.size() + boxes.get().size() > MOST) {
                return Optional.empty();
            }
            options.addAll(boxes.get());
        }
        return Optional.of(options);
    }

    private static List<Box> of(Condition.Compares term) {
        Axis axis = new Axis(term.channel(), term.source());
        long lowest = axis.whole().least();
        long highest = axis.whole().most();
        long raw = term.raw();
        return switch (term.relation()) {
            case AT_LEAST -> boxes(axis, raw, highest);
            case ABOVE -> boxes(axis, raw + 1, highest);
            case AT_MOST -> boxes(axis, lowest, raw);
            case BELOW -> boxes(axis, lowest, raw - 1);
            case IS -> boxes(axis, raw, raw);
            case IS_NOT -> {
                List<Box> both = new ArrayList<>(boxes(axis, lowest, raw - 1));
                both.addAll(boxes(axis, raw + 1, highest));
                yield both;
            }
        };
    }

    private static List<Box> boxes(Axis axis, long least, long most) {
        return Span.of(least, most)
                .flatMap(span -> Box.ANYTHING.and(axis, span))
                .map(List::of)
                .orElse(List.of());
    }
}
