package snagbench.bench.judge;

/** The moment of an anchor, as far as it is known. */
sealed interface Moment {
    /** The start of tick 0. */
    Known ARMING = new Known(0, 0, 0, 1);

    /**
     * It was seen.
     *
     * @param tick of it
     * @param micros start of that tick, since arming
     * @param event number of the event that told it; 0 for none
     * @param firstTickForStates the first tick in which a state that follows may be entered
     */
    record Known(int tick, long micros, int event, int firstTickForStates) implements Moment {}

    /** The moment of an expectation that was not met, or not seen to be. */
    static Missing notMet(String name, boolean settled) {
        String seen = settled ? "" : "seen to be ";
        return new Missing(settled, 0, "its anchor \"" + name + "\" was not " + seen + "met");
    }

    /**
     * It was not seen, or it is not known when it was.
     *
     * @param settled whether it cannot come any more
     * @param notBeforeMicros it was not before this time, in microseconds since arming
     * @param why in a sentence without its full stop
     */
    record Missing(boolean settled, long notBeforeMicros, String why) implements Moment {}
}
