package snagbench.bench.judge;

import java.util.Optional;

/** A term of a condition as a signal over ticks. */
interface TermSignal {
    /** What it can be at the end of a tick, as {@link Truth}. */
    int at(int tick);

    /**
     * What it certainly was at some tick of a span that one row speaks for.
     *
     * @param row of a record of several ticks
     * @param first first tick of the span
     * @param last last tick of the span
     * @return {@link Truth} bits, each set where it certainly was so at some tick; maybe none
     */
    default int somewhere(int row, int first, int last) {
        int found = 0;
        for (int tick = first; tick <= last; tick++) {
            int truth = at(tick);
            found |= truth == Truth.UNKNOWN ? 0 : truth;
        }
        return found;
    }

    /** What its channel was at a tick, in words, such as "reach.position 120.0 mm". */
    String reading(int tick);

    /** The first tick at which it says anything: that at which all that it is worked out from has a value. */
    default int firstTick() {
        return 0;
    }

    /** Tells whether it is about a state, which has names and not sizes. */
    default boolean isState() {
        return false;
    }

    /** How far it is from its limit, where that has a size. */
    default Optional<Slack> slack() {
        return Optional.empty();
    }
}
