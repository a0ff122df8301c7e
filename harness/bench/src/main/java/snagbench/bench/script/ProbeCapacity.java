package snagbench.bench.script;

/**
 * What a rig's probe can hold and do.
 *
 * @param real true if the rig moves something real
 * @param tickMicros loop time in microseconds where it is fixed; 0 where it runs free
 * @param slots entries of a program
 * @param terms terms of a program
 * @param points replay points of a program
 * @param guards guards of a session
 * @param frame longest frame in bytes
 * @param kinds bit n: it can do the {@link snagbench.wire.EntryKind} with code n; above them, what is {@link
 *     snagbench.wire.LeftOut}
 * @param history how long the delays of a program may be, in ticks, all added up
 */
public record ProbeCapacity(
        boolean real,
        int tickMicros,
        int slots,
        int terms,
        int points,
        int guards,
        int frame,
        int kinds,
        int history) {}
