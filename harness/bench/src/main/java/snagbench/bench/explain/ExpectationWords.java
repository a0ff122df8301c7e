package snagbench.bench.explain;

import java.util.Optional;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Stretch;

/** Expectations in words. */
final class ExpectationWords {
    private final FaultScript script;

    ExpectationWords(FaultScript script) {
        this.script = script;
    }

    String of(Expectation expectation) {
        return Words.sentence(words(expectation)) + ".";
    }

    private String words(Expectation expectation) {
        if (expectation instanceof Expectation.AnsweredBy one) {
            return one.failSafe().name() + " must answer"
                    + (one.time() > 1 ? " the " + Words.nth(one.time()) + " time" : "") + window(one)
                    + (one.noOther() ? ", and no other before it" : "") + called(one);
        }
        if (expectation instanceof Expectation.Becomes one) {
            return "it must come about" + (one.time() > 1 ? " the " + Words.nth(one.time()) + " time" : "") + " that "
                    + Words.holds(one.condition()) + "," + window(one) + called(one);
        }
        if (expectation instanceof Expectation.Stays one) {
            boolean atOnce = one.within().mostMicros() == 0;
            return "for " + Words.time(one.forMicros()) + " on end it must hold that " + Words.holds(one.condition())
                    + ", beginning"
                    + (atOnce ? " when " + Words.moment(one.after(), script) : window(one)) + called(one);
        }
        if (expectation instanceof Expectation.Settles one) {
            return "it must settle so that " + Words.holds(one.condition()) + "," + window(one)
                    + (one.forMicros().isPresent()
                            ? ", and stay so for " + Words.time(one.forMicros().getAsLong())
                            : ", and stay so to the end")
                    + called(one);
        }
        if (expectation instanceof Expectation.Restart one) {
            return "the controller must restart" + window(one) + called(one);
        }
        if (expectation instanceof Expectation.Order one) {
            return "in this order: "
                    + Words.and(one.moments().stream()
                            .map(anchor -> Words.moment(anchor, script))
                            .toList());
        }
        return overStretch(expectation);
    }

    private String overStretch(Expectation expectation) {
        if (expectation instanceof Expectation.Always one) {
            return Words.sentence(
                    during(Optional.of(one.during())) + " it must hold that " + Words.holds(one.condition()));
        }
        if (expectation instanceof Expectation.Never one) {
            return Words.sentence(
                    during(Optional.of(one.during())) + " it must never be that " + Words.holds(one.condition()));
        }
        if (expectation instanceof Expectation.MustNotFire one) {
            return one.failSafe().name() + " must not answer"
                    + one.during().map(at -> " " + during(Optional.of(at))).orElse("");
        }
        if (expectation instanceof Expectation.Peak one) {
            return Words.sentence(during(Optional.of(one.during())) + " the peak of "
                    + Words.reading(one.reading().channel(), one.reading().source()) + " must be "
                    + one.reading().relation().words() + " "
                    + Words.value(one.reading().channel(), one.reading().raw()));
        }
        Expectation.Times one = (Expectation.Times) expectation;
        return Words.sentence(during(Optional.of(one.during())) + " it must come about " + count(one) + " that "
                + Words.holds(one.what()));
    }

    private static String count(Expectation.Times one) {
        if (one.most().isEmpty()) {
            return "at least " + times(one.least());
        }
        int most = one.most().getAsInt();
        if (one.least() == most) {
            return times(most);
        }
        return one.least() == 0 ? "at most " + times(most) : one.least() + " to " + most + " times";
    }

    private static String times(int number) {
        return number == 1 ? "once" : number + " times";
    }

    private static String called(Expectation one) {
        return " (" + Words.quoted(one.name()) + ")";
    }

    /** Such as " between 80 ms and 250 ms after the fault strikes". */
    private String window(Expectation.Timed timed) {
        Expectation.Window within = timed.within();
        String after = " after " + Words.moment(timed.after(), script);
        return within.leastMicros() == 0
                ? " within " + Words.time(within.mostMicros()) + after
                : " between " + Words.time(within.leastMicros()) + " and " + Words.time(within.mostMicros()) + after;
    }

    private String during(Optional<Stretch> stretch) {
        Stretch at = stretch.orElse(Stretch.WHOLE);
        String from = Words.moment(at.from(), script);
        if (at.window().isPresent()) {
            Expectation.Window window = at.window().get();
            return "from " + Words.time(window.leastMicros()) + " to " + Words.time(window.mostMicros()) + " after "
                    + from;
        }
        if (at.to().isPresent()) {
            return "from when " + from + " until " + Words.moment(at.to().get(), script);
        }
        return at.from() instanceof Anchor.OfBegin ? "from the beginning on" : "from when " + from + " on";
    }
}
