package snagbench.bench.trace;

/**
 * Ticks of which something is missing.
 *
 * @param firstTick the first of them, counted from arming
 * @param lastTick the last of them; {@link Integer#MAX_VALUE} where no end is known
 */
public record Gap(int firstTick, int lastTick) {
    /**
     * Tells whether it has a tick in common with a span.
     *
     * @param first first tick of the span
     * @param last last tick of the span
     * @return true if it has
     */
    public boolean touches(int first, int last) {
        return firstTick <= last && first <= lastTick;
    }
}
