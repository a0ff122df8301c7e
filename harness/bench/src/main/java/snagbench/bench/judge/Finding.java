package snagbench.bench.judge;

import java.util.List;
import java.util.Objects;
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
 * @param limitMicros the latest that it had to come about, in microseconds since arming, whether it did or not; empty where nothing
 *     had to come about by then, and where what that counts from never came
 */
public record Finding(
        String name,
        Place place,
        Verdict verdict,
        List<Fact> facts,
        OptionalLong metTick,
        OptionalLong metMicros,
        OptionalLong marginMicros,
        Optional<ValueMargin> marginValue,
        OptionalLong limitMicros) {
    /** Copies the list. Journals of before do not have the limit yet. */
    public Finding {
        facts = List.copyOf(facts);
        limitMicros = Objects.requireNonNullElse(limitMicros, OptionalLong.empty());
    }

    /**
     * A finding about something that has no limit in value, and of whose limit in time nothing is known.
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
        this(name, place, verdict, facts, metTick, metMicros, marginMicros, Optional.empty(), OptionalLong.empty());
    }
}
