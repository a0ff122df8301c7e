package snagbench.bench.judge;

import snagbench.bench.script.ChannelDescription;

/**
 * The distance of a reading from the limit that it is compared with, in steps of its channel: at least 0 while the
 * comparison holds, at most 0 while it does not. It is the robustness of the comparison; that of its opposite has the
 * opposite sign.
 */
interface Slack {
    /** Whose steps. */
    ChannelDescription channel();

    /** Tells whether the distance is not bounded at a tick. */
    boolean isOpen(int tick);

    /** The least distance that it can have at a tick. */
    long least(int tick);

    /** The greatest distance that it can have at a tick. */
    long greatest(int tick);

    /** The reading of a tick that is nearest to breaking the comparison, or the furthest from that, in words. */
    String value(int tick, boolean nearest);

    /** What is compared, in words. */
    String name();
}
