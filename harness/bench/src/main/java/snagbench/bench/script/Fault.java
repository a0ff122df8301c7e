package snagbench.bench.script;

import java.util.OptionalLong;

/** What an override does to a reading. Values are in the channel's steps, times in microseconds. */
public sealed interface Fault {
    /**
     * The reading is a value.
     *
     * @param raw the value
     */
    record StuckAt(int raw) implements Fault {}

    /** The reading stays at its last good value. */
    record Freeze() implements Fault {}

    /**
     * A value is added.
     *
     * @param raw the value
     * @param overMicros time in which it ramps in; 0 for at once. {@link RampRate} has a rate for it
     */
    record Offset(int raw, long overMicros) implements Fault {}

    /**
     * A value is added for a short while.
     *
     * @param raw the value
     * @param forMicros for how long; empty for one tick
     */
    record Spike(int raw, OptionalLong forMicros) implements Fault {}
}
