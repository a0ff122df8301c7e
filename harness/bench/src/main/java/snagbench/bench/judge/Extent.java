package snagbench.bench.judge;

import snagbench.bench.script.Expectation.Window;
import snagbench.bench.script.Stretch;

/**
 * The ticks of a stretch, as far as they are known. The tick of what it begins with belongs to it; that of what it ends
 * with does not, so that two stretches that meet share no tick. Both edges of a window belong to it, and so does the
 * script's end.
 */
final class Extent {
    private final Timeline timeline;
    private final Moment.Known from;
    private final long opens;
    private final long closesAtLeast;
    private final long closesAtMost;
    private final int lastTick;
    private final int endEvent;
    private final String end;
    private final boolean window;

    private Extent(
            Timeline timeline,
            Moment.Known from,
            long opens,
            long closesAtLeast,
            long closesAtMost,
            int lastTick,
            int endEvent,
            String end,
            boolean window) {
        this.timeline = timeline;
        this.from = from;
        this.opens = opens;
        this.closesAtLeast = closesAtLeast;
        this.closesAtMost = closesAtMost;
        this.lastTick = lastTick;
        this.endEvent = endEvent;
        this.end = end;
        this.window = window;
    }

    /** Works out a stretch that begins at a known moment, and ends with one where it ends with a moment. */
    static Extent of(Course course, Stretch stretch, Moment.Known from, Moment.Known to) {
        Timeline timeline = course.timeline();
        if (stretch.window().isPresent()) {
            Window window = stretch.window().get();
            long closes = from.micros() + window.mostMicros();
            return new Extent(
                    timeline,
                    from,
                    from.micros() + window.leastMicros(),
                    closes,
                    closes,
                    Integer.MAX_VALUE,
                    0,
                    "the end of the window",
                    true);
        }
        if (stretch.to().isPresent()) {
            String end = stretch.to().get().show();
            return new Extent(timeline, from, 0, Timeline.NEVER, Timeline.NEVER, to.tick() - 1, to.event(), end, false);
        }
        return toTheEnd(course, from);
    }

    /** From a moment to the script's end. */
    static Extent toTheEnd(Course course, Moment.Known from) {
        Ending ending = course.ending();
        return new Extent(
                course.timeline(),
                from,
                0,
                ending.notBeforeMicros(),
                ending.notBehindMicros(),
                Integer.MAX_VALUE,
                0,
                "the script's end",
                false);
    }

    Moment.Known from() {
        return from;
    }

    /** What it ends with, in words. */
    String end() {
        return end;
    }

    int firstTick() {
        return from.tick();
    }

    /** The last tick that may belong to it and of which anything is known. */
    int lastTick() {
        return Math.min(lastTick, timeline.lastKnownTick());
    }

    /** Tells whether a tick may belong to it. */
    boolean mayHave(int tick) {
        return tick >= from.tick()
                && tick <= lastTick
                && timeline.latest(tick) >= opens
                && timeline.earliest(tick) <= closesAtMost;
    }

    /** Tells whether a tick belongs to it for certain. */
    boolean has(int tick) {
        return tick >= from.tick()
                && tick <= lastTick
                && timeline.earliest(tick) >= opens
                && timeline.latest(tick) <= closesAtLeast;
    }

    /** Tells whether all ticks from this one on lie behind it. */
    boolean isBehind(int tick) {
        return tick > lastTick || timeline.earliest(tick) > closesAtMost;
    }

    /** Tells whether an event of a tick that it may have lies in it, for what event and tick tell of their order. */
    boolean mayHaveEvent(int tick, int number) {
        if (number <= from.event()) {
            return false;
        }
        boolean isJustBefore = lastTick != Integer.MAX_VALUE && tick == lastTick + 1 && number < endEvent;
        return isJustBefore || mayHave(tick);
    }

    /** Tells whether an event that it may have lies in it for certain. */
    boolean hasEvent(int tick, int number) {
        boolean isJustBefore = lastTick != Integer.MAX_VALUE && tick == lastTick + 1;
        return mayHaveEvent(tick, number) && (isJustBefore || has(tick));
    }

    /** Tells whether a tick may have events that lie in it: that of the event that it ends with may, before that one. */
    boolean mayHaveEvents(int tick) {
        return mayHave(tick) || (endEvent > 0 && tick == lastTick + 1);
    }

    /** The last tick in which an event that it may have can lie. */
    int lastEventTick() {
        int last = endEvent > 0 ? lastTick + 1 : lastTick;
        return Math.min(last, timeline.lastKnownTick());
    }

    /** Tells whether what was seen reaches to its end. */
    boolean isSeen() {
        if (lastTick != Integer.MAX_VALUE) {
            return timeline.lastTick() >= lastTick;
        }
        return closesAtMost != Timeline.NEVER && timeline.seenThroughMicros() >= closesAtMost;
    }

    /** Tells whether its edges are times, and not moments of the trace. */
    boolean isWindow() {
        return window;
    }

    long opens() {
        return opens;
    }

    /** The last time of a window. */
    long closes() {
        return closesAtMost;
    }

    /** The first tick that certainly lies behind it. */
    int firstTickBehind() {
        int tick = from.tick();
        while (tick <= timeline.lastTick() && !isBehind(tick)) {
            tick++;
        }
        return tick;
    }

    /** The last tick that certainly lies before it. */
    int lastTickBefore() {
        int tick = from.tick();
        while (tick <= timeline.lastTick() && timeline.latest(tick) < opens) {
            tick++;
        }
        return tick - 1;
    }

    /** Tells whether it has no tick at all. */
    boolean isEmpty() {
        return lastTick < from.tick();
    }
}
