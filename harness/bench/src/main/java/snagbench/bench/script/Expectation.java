package snagbench.bench.script;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;

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
     * @param time which of its reports from the anchor on, from 1
     */
    record AnsweredBy(
            Place place,
            String name,
            FailSafeDescription failSafe,
            Window within,
            Anchor after,
            boolean noOther,
            int time)
            implements Timed {
        /**
         * The first report.
         *
         * @param place where it is written
         * @param name its name
         * @param failSafe which one
         * @param within when
         * @param after what the window is counted from
         * @param noOther true if no other fail-safe may report between anchor and answer
         */
        public AnsweredBy(
                Place place, String name, FailSafeDescription failSafe, Window within, Anchor after, boolean noOther) {
            this(place, name, failSafe, within, after, noOther, 1);
        }
    }

    /**
     * A condition must come about anew within a window.
     *
     * @param place where it is written
     * @param name its name
     * @param condition what must come about
     * @param within when
     * @param after what the window is counted from
     * @param time which time that it comes about from the anchor on, from 1
     */
    record Becomes(Place place, String name, Condition condition, Window within, Anchor after, int time)
            implements Timed {
        /**
         * The first time.
         *
         * @param place where it is written
         * @param name its name
         * @param condition what must come about
         * @param within when
         * @param after what the window is counted from
         */
        public Becomes(Place place, String name, Condition condition, Window within, Anchor after) {
            this(place, name, condition, within, after, 1);
        }
    }

    /**
     * A condition must hold without a break for a time, beginning with a tick within a window: its moment.
     *
     * @param place where it is written
     * @param name its name
     * @param condition what must hold
     * @param forMicros how long, on the rig's clock
     * @param within when it must begin; 0 to 0 for at the anchor itself
     * @param after what the window is counted from
     */
    record Stays(Place place, String name, Condition condition, long forMicros, Window within, Anchor after)
            implements Timed {}

    /**
     * A reading must come into a band within a window and be in it from then on: the first such tick is its moment.
     *
     * @param place where it is written
     * @param name its name
     * @param condition that the reading lies in the band
     * @param forMicros how long it must stay; empty for to the script's end
     * @param within when it must begin
     * @param after what the window is counted from
     */
    record Settles(Place place, String name, Condition condition, OptionalLong forMicros, Window within, Anchor after)
            implements Timed {}

    /**
     * A condition must hold in every tick of a stretch.
     *
     * @param place where it is written
     * @param name its name
     * @param condition what must hold
     * @param during in which ticks
     */
    record Always(Place place, String name, Condition condition, Stretch during) implements Expectation {
        /**
         * From the end of the beginning to the end of the script.
         *
         * @param place where it is written
         * @param name its name
         * @param condition what must hold
         */
        public Always(Place place, String name, Condition condition) {
            this(place, name, condition, Stretch.WHOLE);
        }
    }

    /**
     * A condition must hold in no tick of a stretch.
     *
     * @param place where it is written
     * @param name its name
     * @param condition what must not hold
     * @param during in which ticks
     */
    record Never(Place place, String name, Condition condition, Stretch during) implements Expectation {
        /**
         * From the end of the beginning to the end of the script.
         *
         * @param place where it is written
         * @param name its name
         * @param condition what must not hold
         */
        public Never(Place place, String name, Condition condition) {
            this(place, name, condition, Stretch.WHOLE);
        }
    }

    /**
     * A fail-safe must not report.
     *
     * @param place where it is written
     * @param name its name
     * @param failSafe which one
     * @param during in which ticks; empty for from arming to the script's end
     */
    record MustNotFire(Place place, String name, FailSafeDescription failSafe, Optional<Stretch> during)
            implements Expectation {
        /**
         * From arming to the end of the script.
         *
         * @param place where it is written
         * @param name its name
         * @param failSafe which one
         */
        public MustNotFire(Place place, String name, FailSafeDescription failSafe) {
            this(place, name, failSafe, Optional.empty());
        }
    }

    /**
     * The greatest reading of a stretch (the least, for "at least" and "above") against a value.
     *
     * @param place where it is written
     * @param name its name
     * @param reading the comparison that the greatest, or the least, reading must stand
     * @param during in which ticks
     */
    record Peak(Place place, String name, Condition.Compares reading, Stretch during) implements Expectation {}

    /**
     * How often something comes about in a stretch.
     *
     * @param place where it is written
     * @param name its name
     * @param what the condition that comes about, or a fail-safe's report
     * @param least at least so often, from 0
     * @param most at most so often; empty for without limit
     * @param during in which ticks
     */
    record Times(Place place, String name, Condition what, int least, OptionalInt most, Stretch during)
            implements Expectation {}

    /**
     * The controller must restart within a window. The host times it, since the rig's clock starts anew; the judgement states
     * its bound. Its moment is the boot, from which the new clock counts.
     *
     * @param place where it is written
     * @param name its name
     * @param within when
     * @param after what the window is counted from
     */
    record Restart(Place place, String name, Window within, Anchor after) implements Timed {}

    /**
     * Moments must come one after the other, each in a later tick or, of events, later in the same tick.
     *
     * @param place where it is written
     * @param name its name
     * @param moments at least two
     */
    record Order(Place place, String name, List<Anchor> moments) implements Expectation {
        /** Copies the list. */
        public Order {
            moments = List.copyOf(moments);
        }
    }

    /**
     * A window of time on the rig's clock, both edges belonging to it.
     *
     * @param leastMicros lower edge; 0 where there is none
     * @param mostMicros upper edge: the deadline
     */
    record Window(long leastMicros, long mostMicros) {}
}
