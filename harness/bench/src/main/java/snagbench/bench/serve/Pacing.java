package snagbench.bench.serve;

/** Which time of the rig belongs to which time of the wall: an absolute relation, so that lateness does not add up. */
final class Pacing {
    private static final long NANOS_PER_MICRO = 1000;

    private final long roundNanos;
    private final long longestLateMicros;
    private final long wallOrigin;
    private long rigOrigin;

    /**
     * Starts now.
     *
     * @param roundMicros length of a round
     * @param longestLateMicros how late the rig may be and still catch up
     * @param rigMicros the rig's time
     * @param wallNanos the wall's time, which belongs to it
     */
    Pacing(long roundMicros, long longestLateMicros, long rigMicros, long wallNanos) {
        roundNanos = roundMicros * NANOS_PER_MICRO;
        this.longestLateMicros = longestLateMicros;
        rigOrigin = rigMicros;
        wallOrigin = wallNanos;
    }

    /**
     * How long the rig must be taken to have stood still, since it is too late to catch up; from then on its time belongs
     * to the wall's as it is now.
     *
     * @return microseconds, 0 if it is not too late
     */
    long standStill(long rigMicros, long wallNanos) {
        long late = target(wallNanos) - rigMicros;
        if (late <= longestLateMicros) {
            return 0;
        }
        rigOrigin -= late;
        return late;
    }

    /** Where the rig should be. */
    long target(long wallNanos) {
        return rigOrigin + (wallNanos - wallOrigin) / NANOS_PER_MICRO;
    }

    /** How long until the next round begins. */
    long nanosToNextRound(long wallNanos) {
        return roundNanos - Math.floorMod(wallNanos - wallOrigin, roundNanos);
    }
}
