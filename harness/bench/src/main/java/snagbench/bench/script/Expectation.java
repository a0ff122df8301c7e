package snagbench.bench.script;

/** What must follow. */
public sealed interface Expectation {
    /**
     * Where it is written.
     *
     * @return the place
     */
    Place place();

    /**
     * Its name; made from its content where the script gives none.
     *
     * @return not empty
     */
    String name();

    /** An expectation that is met, or missed, at a moment within a window. */
    sealed interface Timed extends Expectation {
        /**
         * When it must come about.
         *
         * @return the window
         */
        Window within();

        /**
         * What the window is counted from.
         *
         * @return the anchor
         */
        Anchor after();
    }

    /**
     * A fail-safe must report within a window; its first report from the anchor on counts.
     *
     * @param place where it is written
     * @param name its name
     * @param failSafe which one
     * @param within when
     * @param after what the window is counted from
     * @param noOther true if no other fail-safe may report between anchor and answer
     */
    record AnsweredBy(
            Place place, String name, FailSafeDescription failSafe, Window within, Anchor after, boolean noOther)
            implements Timed {}

    /**
     * A condition must come about anew within a window.
     *
     * @param place where it is written
     * @param name its name
     * @param condition what must come about
     * @param within when
     * @param after what the window is counted from
     */
    record Becomes(Place place, String name, Condition condition, Window within, Anchor after) implements Timed {}

    /**
     * A condition must hold in every tick from the end of the beginning to the end of the script.
     *
     * @param place where it is written
     * @param name its name
     * @param condition what must hold
     */
    record Always(Place place, String name, Condition condition) implements Expectation {}

    /**
     * A condition must hold in no tick from the end of the beginning to the end of the script.
     *
     * @param place where it is written
     * @param name its name
     * @param condition what must not hold
     */
    record Never(Place place, String name, Condition condition) implements Expectation {}

    /**
     * A fail-safe must not report from arming to the end of the script.
     *
     * @param place where it is written
     * @param name its name
     * @param failSafe which one
     */
    record MustNotFire(Place place, String name, FailSafeDescription failSafe) implements Expectation {}

    /**
     * A window of time on the rig's clock, both edges belonging to it.
     *
     * @param leastMicros lower edge; 0 where there is none
     * @param mostMicros upper edge: the deadline
     */
    record Window(long leastMicros, long mostMicros) {}
}
