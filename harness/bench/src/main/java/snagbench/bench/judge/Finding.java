package snagbench.bench.judge;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.script.Place;

/**
 * What one thing that a script asks for came to: an expectation, or where it did not go well, the beginning, an
 * injection, a guard or the controller.
 *
 * @param name what is judged
 * @param place where the script asks for it
 * @param verdict what it came to
 * @param facts what that rests on, in the order to be shown
 * @param metTick tick in which it came about, in time or not
 * @param metMicros start of that tick, in microseconds since arming
 * @param marginMicros how much earlier than the deadline, or how much longer than asked for, in microseconds; negative
 *     when missed
 * @param marginValue how far from the limit; negative when beyond it
 */
public record Finding(
        String name,
        Place place,
        Verdict verdict,
        List<Fact> facts,
        OptionalLong metTick,
        OptionalLong metMicros,
        OptionalLong marginMicros,
        Optional<ValueMargin> marginValue) {
    /** Copies the list. */
    public Finding {
        facts = List.copyOf(facts);
    }

    /**
     * A finding about something that has no limit in value.
     *
     * @param name what is judged
     * @param place where the script asks for it
     * @param verdict what it came to
     * @param facts what that rests on, in the order to be shown
     * @param metTick tick in which it came about, in time or not
     * @param metMicros start of that tick, in microseconds since arming
     * @param marginMicros how much earlier than the deadline, in microseconds; negative when missed
     */
    public Finding(
            String name,
            Place place,
            Verdict verdict,
            List<Fact> facts,
            OptionalLong metTick,
            OptionalLong metMicros,
            OptionalLong marginMicros) {
        this(name, place, verdict, facts, metTick, metMicros, marginMicros, Optional.empty());
    }
}
