package snagbench.bench.explain;

import java.util.OptionalLong;
import snagbench.bench.script.Fault;
import snagbench.bench.script.Injection;

/** Injections that end by themselves, since they do nothing but spikes. */
final class Spikes {
    private Spikes() {}

    static boolean onlyIn(Injection injection) {
        return !injection.forcings().isEmpty()
                && injection.forcings().stream().allMatch(forcing -> forcing.fault() instanceof Fault.Spike);
    }

    /** How long the longest of them lasts, in microseconds, 0 for one tick; empty where there is another fault too. */
    static OptionalLong longest(Injection injection) {
        return onlyIn(injection)
                ? injection.forcings().stream()
                        .map(forcing -> (Fault.Spike) forcing.fault())
                        .mapToLong(spike -> spike.forMicros().orElse(0))
                        .max()
                : OptionalLong.empty();
    }
}
