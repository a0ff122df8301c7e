package snagbench.bench.judge;

/**
 * The margin in time of what is judged over a stretch. Where the edges of the stretch are times, as far as they could be moved
 * outwards before it breaks, or as far as the nearer one would have to be moved inwards for it to hold. Where they are moments of
 * the trace, or the script's end, only what broke it has a length: so long a break would have to be borne.
 */
final class Edges {
    private final Timeline timeline;
    private final Extent extent;
    private int first = -1;
    private int last = -1;
    private long began = -1;
    private long longest;
    private int breaks;

    Edges(Timeline timeline, Extent extent) {
        this.timeline = timeline;
        this.extent = extent;
    }

    /** It is certainly broken in a tick of the stretch; ticks are told in ascending order. */
    void brokenAt(int tick) {
        if (last < 0 || last < tick - 1) {
            began = timeline.latest(tick);
            breaks++;
        }
        first = first < 0 ? tick : first;
        last = tick;
        longest = Math.max(longest, timeline.earliest(tick + 1) - began);
    }

    /** The margin of a fail: negative. */
    void tellBroken(Findings to) {
        if (first < 0) {
            return;
        }
        if (extent.isWindow()) {
            long fromBegin = timeline.latest(last) - extent.opens();
            long fromEnd = extent.closes() - timeline.earliest(first);
            to.margin(-Math.max(1, Math.min(fromBegin, fromEnd)));
        } else {
            to.margin(-Math.max(1, longest));
        }
    }

    /** How long it was broken, as far as that is certain. */
    Findings tellLength(Findings to) {
        if (longest <= 0) {
            return to;
        }
        return to.fact("lasted", Words.span(longest) + (breaks == 1 ? "" : ", the longest of " + breaks + " times"));
    }

    /** What breaks it, or may break it, at a tick. */
    interface Broken {
        boolean at(int tick);
    }

    /** The margin of a pass: how near a break lies to the window. None where none is near, as far as was seen. */
    void tellHeld(Findings to, Broken broken) {
        if (!extent.isWindow()) {
            return;
        }
        long nearest = Long.MAX_VALUE;
        for (int tick = extent.firstTickBehind(); tick <= timeline.lastTick(); tick++) {
            if (broken.at(tick)) {
                nearest = timeline.earliest(tick) - extent.closes();
                break;
            }
        }
        for (int tick = extent.lastTickBefore(); tick >= extent.from().tick(); tick--) {
            if (broken.at(tick)) {
                nearest = Math.min(nearest, extent.opens() - timeline.latest(tick));
                break;
            }
        }
        if (nearest != Long.MAX_VALUE) {
            to.margin(Math.max(0, nearest));
        }
    }
}
