package snagbench.bench.script;

/**
 * A quantity that is worked out from the trace, for expectations and reports; the rig knows nothing of it, so that no trigger
 * can hang on it. Its values lie on a grid of its own, like a channel's; where the exact value lies between two of them, it is
 * known to be one or the other.
 *
 * @param place where it is written
 * @param channel its name, unit and grid; its index lies behind those of the rig's channels. Of kind SENSOR, or STATE with the
 *     values "no" and "yes"
 * @param formula how it is worked out
 */
public record DerivedChannel(Place place, ChannelDescription channel, Formula formula) {
    /** How it is worked out. All windows end with the tick in question; before a window is full, the value is unknown. */
    public sealed interface Formula {}

    /**
     * Change per second: (x(k) - x(j)) / (t(k) - t(j)), j being the last tick with t(k) - t(j) at least the window.
     *
     * @param of which channel
     * @param source which reading
     * @param overMicros the window, on the rig's clock
     */
    public record Rate(ChannelDescription of, Source source, long overMicros) implements Formula {}

    /**
     * Yes while it is driven and does not move: in all ticks with t(k) - t at most the window {@code driven} held, and the
     * greatest and the least reading of them are less than {@code raw} apart.
     *
     * @param of which channel
     * @param source which reading
     * @param raw in the channel's steps, from 1
     * @param overMicros the window, on the rig's clock
     * @param driven that it is commanded to move
     */
    public record Stalled(ChannelDescription of, Source source, int raw, long overMicros, Condition driven)
            implements Formula {}

    /**
     * One channel less another of the same unit.
     *
     * @param of which channel
     * @param source which reading of it
     * @param less which channel is taken from it
     * @param lessSource which reading of that
     */
    public record Difference(ChannelDescription of, Source source, ChannelDescription less, Source lessSource)
            implements Formula {}

    /**
     * One channel and another of the same unit added.
     *
     * @param of which channel
     * @param source which reading of it
     * @param and which channel is added to it
     * @param andSource which reading of that
     */
    public record Sum(ChannelDescription of, Source source, ChannelDescription and, Source andSource)
            implements Formula {}

    /**
     * Mean of the readings of all ticks with t(k) - t below the window.
     *
     * @param of which channel
     * @param source which reading
     * @param overMicros the window, on the rig's clock
     */
    public record Mean(ChannelDescription of, Source source, long overMicros) implements Formula {}

    /**
     * Root of the mean of the squares of the readings of all ticks with t(k) - t below the window.
     *
     * @param of which channel
     * @param source which reading
     * @param overMicros the window, on the rig's clock
     */
    public record RootMeanSquare(ChannelDescription of, Source source, long overMicros) implements Formula {}

    /**
     * Follows a condition once it has been the other way for a time: from no to yes when it has held so long, from yes to no
     * when it has not held so long. It begins with no.
     *
     * @param condition the condition
     * @param forMicros how long, on the rig's clock
     */
    public record Debounced(Condition condition, long forMicros) implements Formula {}
}
