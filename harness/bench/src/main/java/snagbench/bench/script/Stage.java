package snagbench.bench.script;

/** A stage of a script's beginning, before any injection. */
public sealed interface Stage {
    /**
     * Where it is written.
     *
     * @return the place
     */
    Place place();

    /**
     * Tells a command channel a value for one tick.
     *
     * @param place where it is written
     * @param command the command channel
     * @param raw the value, in the channel's steps
     */
    record Send(Place place, ChannelDescription command, int raw) implements Stage {}

    /**
     * Waits until a condition holds.
     *
     * @param place where it is written
     * @param condition what to wait for
     * @param withinMicros how long at most, on the rig's clock
     */
    record WaitFor(Place place, Condition condition, long withinMicros) implements Stage {}
}
