package snagbench.bench.script.write;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Source;

/** Conditions in braces. */
final class ConditionText {
    private final Set<ChannelDescription> overridden;

    /** For a script that overrides these channels, so that a condition on them says which reading it means. */
    ConditionText(Set<ChannelDescription> overridden) {
        this.overridden = overridden;
    }

    String of(Condition condition) {
        Map<String, List<String>> byKey = new LinkedHashMap<>();
        for (Condition.Term term : condition.terms()) {
            byKey.computeIfAbsent(key(term), one -> new ArrayList<>()).add(value(term));
        }
        return byKey.entrySet().stream()
                .map(entry -> Lines.key(entry.getKey()) + ": " + together(entry.getValue()))
                .collect(Collectors.joining(", ", "{ ", " }"));
    }

    private static String together(List<String> values) {
        return values.size() == 1 ? values.get(0) : values.stream().collect(Collectors.joining(", ", "[", "]"));
    }

    String reading(ChannelDescription channel, Source source) {
        if (source == Source.TOLD) {
            return channel.name() + ".told";
        }
        return overridden.contains(channel) ? channel.name() + ".real" : channel.name();
    }

    private String key(Condition.Term term) {
        if (term instanceof Condition.Compares one) {
            return reading(one.channel(), one.source());
        }
        if (term instanceof Condition.ComparesToStrike one) {
            return reading(one.channel(), one.source());
        }
        if (term instanceof Condition.Crosses one) {
            return reading(one.channel(), one.source());
        }
        if (term instanceof Condition.Moves one) {
            return reading(one.channel(), one.source());
        }
        if (term instanceof Condition.Agrees one) {
            return one.channel().name();
        }
        return term instanceof Condition.Answers ? "failsafe" : "any-of";
    }

    private String value(Condition.Term term) {
        if (term instanceof Condition.Answers one) {
            return Lines.text(one.failSafe().name());
        }
        if (term instanceof Condition.AnyOf one) {
            return one.alternatives().stream().map(this::of).collect(Collectors.joining(", ", "[", "]"));
        }
        return Lines.text(words(term));
    }

    private static String words(Condition.Term term) {
        if (term instanceof Condition.Compares one) {
            return one.relation().words() + " " + Figures.value(one.channel(), one.raw());
        }
        if (term instanceof Condition.ComparesToStrike one) {
            String shift = one.offset() == 0
                    ? ""
                    : (one.offset() < 0 ? " - " : " + ") + Figures.value(one.channel(), Math.abs(one.offset()));
            return one.relation().words() + " at-injection(" + one.injection().name() + ")" + shift;
        }
        if (term instanceof Condition.Crosses one) {
            return (one.rises() ? "rises to " : "falls to ") + Figures.value(one.channel(), one.raw());
        }
        if (term instanceof Condition.Moves one) {
            return "moves " + (one.more() ? "more" : "less") + " than " + Figures.value(one.channel(), one.raw())
                    + " in " + Figures.ticks(one.ticks());
        }
        Condition.Agrees agrees = (Condition.Agrees) term;
        return "agrees within " + Figures.value(agrees.channel(), agrees.raw());
    }
}
