package snagbench.bench.judge;

import java.util.Optional;

/** Something that has to come about within a window from an anchor. */
interface Awaited {
    /** In words, such as "FS-02 answers". */
    String what();

    /** The first tick in which it counts. */
    int firstTick(Moment.Known anchor);

    /** Gathers when it may have come first. */
    void gather(Moment.Known anchor, Arrival arrival);

    /** What there was in its place in a tick that has a record, in words. */
    String insteadAt(int tick, Moment.Known anchor);

    /** What spoils it though it came in time. */
    Optional<Spoilt> spoilt(Moment.Known anchor, Arrival arrival);

    /** The moment that others count from, once it is certain that it came in this tick. */
    Moment.Known momentAt(int tick, long micros);

    /**
     * What spoils something that came in time.
     *
     * @param verdict fail where that is certain, else inconclusive
     * @param text what there was
     */
    record Spoilt(Verdict verdict, String text) {}
}
