package snagbench.bench.script.write;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Stretch;

/** Expectations, each as an item of a list. */
final class ExpectationText {
    private static final int DEPTH = 2;

    private final Lines lines;
    private final ConditionText conditions;

    ExpectationText(Lines lines, ConditionText conditions) {
        this.lines = lines;
        this.conditions = conditions;
    }

    void add(Expectation expectation) {
        lines.add(1, "- name: " + Lines.text(expectation.name()));
        if (expectation instanceof Expectation.AnsweredBy one) {
            add("answered-by", Lines.text(one.failSafe().name()));
            time(one.time());
            if (one.noOther()) {
                add("no-other", "true");
            }
        } else if (expectation instanceof Expectation.Becomes one) {
            add("becomes", conditions.of(one.condition()));
            time(one.time());
        } else if (expectation instanceof Expectation.Stays one) {
            add("stays", conditions.of(one.condition()));
            add("for", Figures.time(one.forMicros()));
        } else if (expectation instanceof Expectation.Settles one) {
            add("settles", band(one.condition()));
            one.forMicros().ifPresent(micros -> add("for", Figures.time(micros)));
        } else if (expectation instanceof Expectation.Restart) {
            add("restart", "expected");
        } else if (expectation instanceof Expectation.Order one) {
            add(
                    "order",
                    one.moments().stream().map(ExpectationText::anchor).collect(Collectors.joining(", ", "[", "]")));
        } else {
            stretched(expectation);
        }
        if (expectation instanceof Expectation.Timed timed) {
            if (!timed.within().equals(new Expectation.Window(0, 0))) {
                add("within", Figures.window(timed.within()));
            }
            add("after", anchor(timed.after()));
        }
    }

    private void stretched(Expectation expectation) {
        if (expectation instanceof Expectation.Always one) {
            add("always", conditions.of(one.condition()));
            stretch(Optional.of(one.during()));
        } else if (expectation instanceof Expectation.Never one) {
            add("never", conditions.of(one.condition()));
            stretch(Optional.of(one.during()));
        } else if (expectation instanceof Expectation.MustNotFire one) {
            add("must-not-fire", Lines.text(one.failSafe().name()));
            stretch(one.during());
        } else if (expectation instanceof Expectation.Peak one) {
            add("peak", conditions.of(new Condition(one.place(), List.of(one.reading()))));
            stretch(Optional.of(one.during()));
        } else if (expectation instanceof Expectation.Times one) {
            add("times", conditions.of(one.what()));
            add("count", count(one.least(), one.most()));
            stretch(Optional.of(one.during()));
        }
    }

    private void add(String key, String value) {
        lines.add(DEPTH, key, value);
    }

    private void time(int time) {
        if (time > 1) {
            add("time", Integer.toString(time));
        }
    }

    private static String count(int least, OptionalInt most) {
        if (most.isEmpty()) {
            return "at least " + least;
        }
        return least == most.getAsInt() ? Integer.toString(least) : least + " .. " + most.getAsInt();
    }

    private void stretch(Optional<Stretch> during) {
        if (during.isEmpty()) {
            return;
        }
        Stretch stretch = during.get();
        if (stretch.window().isPresent()) {
            add("within", Figures.window(stretch.window().get()));
            add("after", anchor(stretch.from()));
        } else {
            add("from", anchor(stretch.from()));
            stretch.to().ifPresent(to -> add("to", anchor(to)));
        }
    }

    /** The band around the middle of two limits. */
    private String band(Condition condition) {
        Condition.Compares lower = (Condition.Compares) condition.terms().get(0);
        Condition.Compares upper = (Condition.Compares) condition.terms().get(1);
        int half = (upper.raw() - lower.raw()) / 2;
        String band =
                Figures.value(lower.channel(), lower.raw() + half) + " +- " + Figures.value(lower.channel(), half);
        return "{ " + Lines.key(conditions.reading(lower.channel(), lower.source())) + ": " + Lines.text(band) + " }";
    }

    static String anchor(Anchor anchor) {
        if (anchor instanceof Anchor.OfInjection injection) {
            return timed(injection.name(), injection.time());
        }
        if (anchor instanceof Anchor.OfExpectation expectation) {
            return timed(expectation.name(), expectation.time());
        }
        return "begin";
    }

    private static String timed(String name, int time) {
        return time == 1 ? Lines.text(name) : "{ of: " + Lines.text(name) + ", time: " + time + " }";
    }
}
