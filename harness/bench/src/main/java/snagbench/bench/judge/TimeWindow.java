package snagbench.bench.judge;

/**
 * The first tick of a window of time that ends with a tick: the earliest that it may be and the latest, which differ where it
 * is not known exactly when a tick was. Only moves on.
 */
final class TimeWindow {
    private final Timeline timeline;
    private final long micros;
    private final boolean edgeBelongs;
    private int mayBegin;
    private int begins;

    /**
     * A window of no tick yet.
     *
     * @param timeline tells when ticks were
     * @param micros length of the window
     * @param edgeBelongs true if a tick that lies just as long ago belongs to it
     */
    TimeWindow(Timeline timeline, long micros, boolean edgeBelongs) {
        this.timeline = timeline;
        this.micros = micros;
        this.edgeBelongs = edgeBelongs;
    }

    void endWith(int tick) {
        while (mayBegin < tick && !isWithin(timeline.earliest(tick) - timeline.latest(mayBegin))) {
            mayBegin++;
        }
        while (begins < tick && !isWithin(timeline.latest(tick) - timeline.earliest(begins))) {
            begins++;
        }
    }

    private boolean isWithin(long ago) {
        return edgeBelongs ? ago <= micros : ago < micros;
    }

    /** The first tick that may belong to it. */
    int mayBegin() {
        return mayBegin;
    }

    /** The first tick from which on all belong to it for certain. */
    int begins() {
        return begins;
    }
}
