package snagbench.bench.judge;

import snagbench.bench.script.Expectation.Window;

/**
 * When something that is waited for came, against a window whose edges both belong to it. Where something is missing it
 * may have come at several times: all of them are gathered, and only what they agree on is settled.
 */
final class Arrival {
    private static final int EARLY = 1;
    private static final int IN = 2;
    private static final int LATE = 4;

    private final Timeline timeline;
    private final long opens;
    private final long closes;
    private int classes;
    private int candidates;
    private int firstTick = -1;
    private int lastTick = -1;
    private long earliest;
    private long latest;
    private int leastTick = Integer.MAX_VALUE;
    private long atEarliest = Timeline.NEVER;
    private long atLatest;
    private boolean hidden;

    Arrival(Timeline timeline, Moment.Known anchor, Window window) {
        this.timeline = timeline;
        this.opens = anchor.micros() + window.leastMicros();
        this.closes = anchor.micros() + window.mostMicros();
    }

    /** It may have come in this tick; ticks are told in ascending order. */
    void mayBeAt(int tick) {
        mayBeBetween(tick, timeline.earliest(tick), timeline.latest(tick));
    }

    /** It may have come between two times, at a tick or, where it has none, behind it. */
    void mayBeBetween(int tick, long from, long to) {
        gather(tick, from, to);
        candidates++;
        if (firstTick < 0) {
            firstTick = tick;
            earliest = from;
        }
        lastTick = tick;
        latest = to;
    }

    /** It may have come unseen in one of these ticks. */
    void mayBeHidden(int first, int last) {
        gather(first, timeline.earliest(first), last == Integer.MAX_VALUE ? Timeline.NEVER : timeline.latest(last));
        hidden = true;
    }

    /** It may not have come by the end of what was seen, so that it may come behind that, or never. */
    void mayBeMissing() {
        gather(timeline.lastKnownTick() + 1, timeline.seenThroughMicros() + 1, Timeline.NEVER);
        hidden = true;
    }

    private void gather(int tick, long earliest, long latest) {
        leastTick = Math.min(leastTick, tick);
        atEarliest = Math.min(atEarliest, earliest);
        atLatest = Math.max(atLatest, latest);
        classes |= earliest < opens ? EARLY : 0;
        classes |= earliest <= closes && latest >= opens ? IN : 0;
        classes |= latest > closes ? LATE : 0;
    }

    boolean isInTime() {
        return classes == IN;
    }

    boolean isMissed() {
        return (classes & IN) == 0;
    }

    boolean isTooEarly() {
        return classes == EARLY;
    }

    /** Tells whether what was seen ends before the window does. */
    boolean isOpen() {
        return timeline.seenThroughMicros() < closes;
    }

    long opens() {
        return opens;
    }

    long closes() {
        return closes;
    }

    /** Tells whether it is certain in which tick it came, and when that was. */
    boolean isExact() {
        return candidates == 1 && !hidden && earliest == latest;
    }

    /** The earliest that it can have been seen to come. */
    long earliest() {
        return earliest;
    }

    /** The latest that it can have been seen to come. */
    long latest() {
        return latest;
    }

    /** The earliest that it can have come, seen or not. */
    long atEarliest() {
        return atEarliest;
    }

    /** The latest that it can have come, seen or not. */
    long atLatest() {
        return atLatest;
    }

    /** The first tick in which it can have come, seen or not. */
    int leastTick() {
        return leastTick;
    }

    /** Tells whether it was seen to come at all, be it that it may have come before. */
    boolean wasSeen() {
        return lastTick >= 0;
    }

    /** The first tick in which it may have been seen to come. */
    int firstTick() {
        return firstTick;
    }

    /** The last tick in which it may have been seen to come. */
    int lastTick() {
        return lastTick;
    }
}
