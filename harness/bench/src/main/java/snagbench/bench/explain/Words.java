package snagbench.bench.explain;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Source;

/** Pieces of sentences. */
final class Words {
    private static final long SECOND = 1_000_000;

    private Words() {}

    static String quoted(String name) {
        return "\"" + name + "\"";
    }

    static String and(List<String> parts) {
        if (parts.size() < 2) {
            return String.join("", parts);
        }
        return String.join(", ", parts.subList(0, parts.size() - 1)) + " and " + parts.get(parts.size() - 1);
    }

    static String sentence(String text) {
        return text.isEmpty() ? text : Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }

    /** Such as "250 ms", "1.5 s" or "40 us". */
    static String time(long micros) {
        if (micros >= SECOND) {
            return figure(micros, 6) + " s";
        }
        return micros == 0 || micros >= 1000 ? figure(micros, 3) + " ms" : micros + " us";
    }

    /** Such as "25 min 30 s"; below a minute as {@link #time}. */
    static String longTime(long micros) {
        long seconds = micros / SECOND;
        if (seconds < 60) {
            return time(micros);
        }
        List<String> parts = new ArrayList<>();
        if (seconds >= 3600) {
            parts.add(seconds / 3600 + " h");
        }
        if (seconds % 3600 >= 60) {
            parts.add(seconds % 3600 / 60 + " min");
        }
        if (seconds % 60 > 0) {
            parts.add(seconds % 60 + " s");
        }
        return String.join(" ", parts);
    }

    /** Such as "1 script" or "3 scripts". */
    static String counted(int count, String what) {
        return count + " " + what + (count == 1 ? "" : "s");
    }

    private static String figure(long micros, int decimals) {
        BigDecimal value = BigDecimal.valueOf(micros, decimals).stripTrailingZeros();
        return value.signum() == 0 ? "0" : value.toPlainString();
    }

    /** A value without zeros at its end, which say nothing in a sentence. */
    static String value(ChannelDescription channel, int raw) {
        if (raw >= 0 && raw < channel.valueNames().size()) {
            return channel.valueNames().get(raw);
        }
        BigDecimal figure = channel.step().multiply(BigDecimal.valueOf(raw)).stripTrailingZeros();
        String plain = figure.signum() == 0 ? "0" : figure.toPlainString();
        return channel.unit().isEmpty() ? plain : plain + " " + channel.unit();
    }

    /** A condition as what holds: "the step is REACHING and reach.position is at least 180 mm". */
    static String holds(Condition condition) {
        return and(condition.terms().stream().map(Words::holds).toList());
    }

    private static String holds(Condition.Term term) {
        if (term instanceof Condition.Compares one) {
            return reading(one.channel(), one.source())
                    + (one.relation() == Condition.Relation.IS || one.relation() == Condition.Relation.IS_NOT
                            ? " " + one.relation().words() + " "
                            : " is " + one.relation().words() + " ")
                    + value(one.channel(), one.raw());
        }
        if (term instanceof Condition.Answers one) {
            return one.failSafe().name() + " answers";
        }
        if (term instanceof Condition.Crosses one) {
            return reading(one.channel(), one.source())
                    + (one.rises() ? " rises to " : " falls to ")
                    + value(one.channel(), one.raw());
        }
        if (term instanceof Condition.Moves one) {
            return reading(one.channel(), one.source()) + " moves " + (one.more() ? "more" : "less") + " than "
                    + value(one.channel(), one.raw()) + " in " + ticks(one.ticks());
        }
        if (term instanceof Condition.Agrees one) {
            return "what is told of " + one.channel().name() + " and what is real are within "
                    + value(one.channel(), one.raw());
        }
        if (term instanceof Condition.ComparesToStrike one) {
            String shift = one.offset() == 0
                    ? ""
                    : (one.offset() < 0 ? " less " : " and ") + value(one.channel(), Math.abs(one.offset()));
            return reading(one.channel(), one.source()) + " is "
                    + one.relation().words() + " its value when " + strike(one.injection()) + shift;
        }
        return ((Condition.AnyOf) term)
                .alternatives().stream().map(Words::holds).collect(Collectors.joining(" or ", "either ", ""));
    }

    static String ticks(int ticks) {
        return ticks + (ticks == 1 ? " tick" : " ticks");
    }

    static String reading(ChannelDescription channel, Source source) {
        String name = channel.isStep() ? "the step" : channel.name();
        return source == Source.TOLD ? name + " as told" : name;
    }

    /** An injection striking, as the clause of a sentence. */
    static String strike(Anchor.OfInjection injection) {
        String name = injection.name().matches("injection [0-9]+")
                ? "the fault" + (injection.index() == 0 ? "" : " (" + injection.name() + ")")
                : quoted(injection.name());
        return name + " strikes" + (injection.time() == 1 ? "" : " the " + nth(injection.time()) + " time");
    }

    static String nth(int number) {
        boolean teens = number % 100 >= 11 && number % 100 <= 13;
        String ending =
                switch (teens ? 0 : number % 10) {
                    case 1 -> "st";
                    case 2 -> "nd";
                    case 3 -> "rd";
                    default -> "th";
                };
        return number + ending;
    }

    /** What a time is counted from, behind "after". */
    static String moment(Anchor anchor, FaultScript script) {
        if (anchor instanceof Anchor.OfInjection injection) {
            return strike(injection);
        }
        if (anchor instanceof Anchor.OfExpectation other) {
            Expectation expectation = script.expectations().get(other.index());
            String time = other.time() == 1 ? "" : " the " + nth(other.time()) + " time";
            return expectation instanceof Expectation.Order ? quoted(other.name()) : quoted(other.name()) + time;
        }
        return "the beginning is done";
    }
}
