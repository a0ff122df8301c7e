package snagbench.bench.judge;

import java.util.Optional;
import snagbench.bench.script.Expectation.Window;

/** Something that has to come about within a window from an anchor. */
interface Awaited {
    /** In words, such as "FS-02 answers". */
    String what();

    /** The first tick in which it counts. */
    int firstTick(Moment.Known anchor);

    /** Gathers when it may have come, for the time that counts. */
    void gather(Moment.Known anchor, Arrival arrival);

    /** What there was in its place in a tick that has a record, in words. */
    String insteadAt(int tick, Moment.Known anchor);

    /** Since when that was so, in words; empty where it means nothing. */
    default String sinceAt(int tick, Moment.Known anchor) {
        return "";
    }

    /** What spoils it though it came in time. */
    default Optional<Spoilt> spoilt(Moment.Known anchor, Arrival arrival) {
        return Optional.empty();
    }

    /** The moment that others count from, once it is certain that it came in this tick. */
    Moment.Known momentAt(int tick, long micros);

    /** How far it is from coming about, where that has a size. */
    default Optional<Slack> slack() {
        return Optional.empty();
    }

    /** Tells whether it comes about in a tick of the trace; else only times bound it. */
    default boolean hasTick() {
        return true;
    }

    /** The moment that it comes about, be it in time or not. */
    default Moment moment(Course course, Moment.Known anchor, String name) {
        Arrival arrival = new Arrival(course.timeline(), anchor, new Window(0, Timeline.NEVER / 2));
        gather(anchor, arrival);
        return arrival.isExact()
                ? momentAt(arrival.lastTick(), arrival.latest())
                : new Moment.Missing(false, 0, name + " was not seen, or it is not known in which tick");
    }

    /**
     * What spoils something that came in time.
     *
     * @param verdict fail where that is certain, else inconclusive
     * @param text what there was
     */
    record Spoilt(Verdict verdict, String text) {}
}
