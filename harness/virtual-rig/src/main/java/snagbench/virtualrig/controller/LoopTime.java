package snagbench.virtualrig.controller;

/**
 * How long one pass of a free-running loop takes.
 *
 * @param shortestMicros above 0
 * @param extraMicros by up to so much longer, evenly spread and seeded
 */
public record LoopTime(int shortestMicros, int extraMicros) {
    /** Refuses a loop without time. */
    public LoopTime {
        if (shortestMicros <= 0 || extraMicros < 0) {
            throw new IllegalArgumentException("loop of " + shortestMicros + " us and up to " + extraMicros
                    + " us more; wanted above 0, and at least 0");
        }
    }
}
