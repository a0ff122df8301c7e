package snagbench.bench.explain;

import snagbench.bench.script.Anchor;
import snagbench.bench.script.Trigger;

/** What strikes an injection, in words. */
final class TriggerWords {
    private TriggerWords() {}

    /** A clause that begins with "when" or "as soon as". */
    static String of(Trigger trigger) {
        StringBuilder text = new StringBuilder();
        String after = trigger.after() instanceof Anchor.OfBegin
                ? ""
                : Words.quoted(name(trigger.after())) + " has come about";
        if (trigger.when().terms().isEmpty()) {
            text.append(after.isEmpty() ? "as soon as the beginning is done" : "as soon as " + after);
        } else {
            text.append(trigger.times() == 1 ? "when " : "every time that ").append(Words.holds(trigger.when()));
            if (!after.isEmpty()) {
                text.append(" after ").append(after);
            }
        }
        if (trigger.forMicros() > 0) {
            text.append(" and has done so for ").append(Words.time(trigger.forMicros()));
        }
        if (trigger.occasion() > 1) {
            text.append(trigger.times() == 1 ? " for the " : ", from the ")
                    .append(Words.nth(trigger.occasion()))
                    .append(trigger.times() == 1 ? " time" : " time on");
        }
        if (trigger.times() > 1) {
            text.append(" (").append(trigger.times()).append(" times at most)");
        }
        if (trigger.delayMicros() > 0) {
            text.append(", and ").append(Words.time(trigger.delayMicros())).append(" later");
        }
        return text.toString();
    }

    private static String name(Anchor anchor) {
        if (anchor instanceof Anchor.OfInjection injection) {
            return injection.name();
        }
        return anchor instanceof Anchor.OfExpectation expectation ? expectation.name() : "begin";
    }
}
