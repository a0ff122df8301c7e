package snagbench.bench.judge;

import java.util.Optional;
import java.util.OptionalLong;
import snagbench.wire.EntryEnd;

/**
 * What is known of an injection.
 *
 * @param name its name
 * @param firstTick first tick with the override
 * @param firstMicros start of that tick, in microseconds since arming
 * @param lastTick last tick with the override, of its newest strike
 * @param lastedMicros of its newest strike, from the start of the first tick to the start of the first one without, in
 *     microseconds
 * @param ended what ended its newest strike; of several overrides, of the last that ended
 * @param changedAnything whether the control code was ever told something else than what was real
 * @param strikes how often it was seen to strike
 */
public record InjectionFacts(
        String name,
        OptionalLong firstTick,
        OptionalLong firstMicros,
        OptionalLong lastTick,
        OptionalLong lastedMicros,
        Optional<EntryEnd> ended,
        boolean changedAnything,
        int strikes) {}
