package snagbench.bench.script;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * One fault, when it strikes, and what must follow; checked against a rig's description.
 *
 * @param place where the script starts; its file is the script's
 * @param name what the script is called
 * @param failSafes fail-safes that it is evidence for; may be empty
 * @param why the fault in words; may be empty
 * @param needs what it needs of a real rig
 * @param begin stages before any injection
 * @param injections at least one
 * @param expectations at least one
 * @param end when the script ends; empty for the last deadline and the rig's settling time
 * @param inhibited fail-safes that are left out from arming on
 * @param derived quantities that its expectations use, in the order of their indexes
 * @param variant which of the scripts of its file it is, where the file varies something
 * @param twin the injections of its twin just over the limit, where its point is that a fail-safe must not fire; all of them, in
 *     the same order; empty where it names none
 * @param adjusted constants of the control code that are others from arming on
 */
public record FaultScript(
        Place place,
        String name,
        List<FailSafeDescription> failSafes,
        String why,
        Set<Need> needs,
        List<Stage> begin,
        List<Injection> injections,
        List<Expectation> expectations,
        Optional<End> end,
        List<FailSafeDescription> inhibited,
        List<DerivedChannel> derived,
        Optional<Variant> variant,
        List<Injection> twin,
        List<Adjustment> adjusted) {
    /** Copies the collections. */
    public FaultScript {
        failSafes = List.copyOf(failSafes);
        needs = Set.copyOf(needs);
        begin = List.copyOf(begin);
        injections = List.copyOf(injections);
        expectations = List.copyOf(expectations);
        inhibited = List.copyOf(inhibited);
        derived = List.copyOf(derived);
        twin = List.copyOf(twin);
        adjusted = List.copyOf(adjusted);
    }

    /**
     * A script without a twin, with the control code's constants as they are.
     *
     * @param place where the script starts; its file is the script's
     * @param name what the script is called
     * @param failSafes fail-safes that it is evidence for; may be empty
     * @param why the fault in words; may be empty
     * @param needs what it needs of a real rig
     * @param begin stages before any injection
     * @param injections at least one
     * @param expectations at least one
     * @param end when the script ends; empty for the last deadline and the rig's settling time
     * @param inhibited fail-safes that are left out from arming on
     * @param derived quantities that its expectations use, in the order of their indexes
     * @param variant which of the scripts of its file it is, where the file varies something
     */
    public FaultScript(
            Place place,
            String name,
            List<FailSafeDescription> failSafes,
            String why,
            Set<Need> needs,
            List<Stage> begin,
            List<Injection> injections,
            List<Expectation> expectations,
            Optional<End> end,
            List<FailSafeDescription> inhibited,
            List<DerivedChannel> derived,
            Optional<Variant> variant) {
        this(
                place,
                name,
                failSafes,
                why,
                needs,
                begin,
                injections,
                expectations,
                end,
                inhibited,
                derived,
                variant,
                List.of(),
                List.of());
    }

    /**
     * A script that leaves nothing out, derives nothing and varies nothing.
     *
     * @param place where the script starts; its file is the script's
     * @param name what the script is called
     * @param failSafes fail-safes that it is evidence for; may be empty
     * @param why the fault in words; may be empty
     * @param needs what it needs of a real rig
     * @param begin stages before any injection
     * @param injections at least one
     * @param expectations at least one
     * @param end when the script ends; empty for the last deadline and the rig's settling time
     */
    public FaultScript(
            Place place,
            String name,
            List<FailSafeDescription> failSafes,
            String why,
            Set<Need> needs,
            List<Stage> begin,
            List<Injection> injections,
            List<Expectation> expectations,
            Optional<End> end) {
        this(
                place,
                name,
                failSafes,
                why,
                needs,
                begin,
                injections,
                expectations,
                end,
                List.of(),
                List.of(),
                Optional.empty());
    }

    /** What a script may need of a real rig. */
    public enum Need {
        /** Somebody must lend a hand. */
        HANDS("hands"),
        /** It moves. */
        MOTION("motion"),
        /** Its wheels must be off the ground. */
        WHEELS_UP("wheels-up"),
        /** The floor around it must be clear. */
        CLEAR_FLOOR("clear floor");

        private final String word;

        Need(String word) {
            this.word = word;
        }

        /**
         * The word in a script.
         *
         * @return such as "wheels-up"
         */
        public String word() {
            return word;
        }
    }

    /**
     * When a script ends.
     *
     * @param place where it is written
     * @param micros how long after the anchor, on the rig's clock
     * @param after what it is counted from
     */
    public record End(Place place, long micros, Anchor after) {}

    /**
     * Which entry of the rig's program a stage of the beginning is: stages come first, in order.
     *
     * @param stage index in {@link #begin}
     * @return index of the entry
     */
    public int entryOfStage(int stage) {
        return stage;
    }

    /**
     * Which entries of the rig's program an injection is: one for each of its forcings, from this one on.
     *
     * @param injection index in {@link #injections}
     * @return index of its first entry
     */
    public int firstEntryOfInjection(int injection) {
        return ProgramLayout.of(this).firstEntryOfInjection(injection);
    }

    /**
     * A constant of the control code that is another from arming on.
     *
     * @param channel the constant
     * @param raw its value, in the channel's steps
     */
    public record Adjustment(ChannelDescription channel, int raw) {}

    /**
     * The same script with other injections and expectations.
     *
     * @param otherInjections what is injected; may be none
     * @param otherExpectations what must follow
     * @param otherEnd when it ends
     * @return a script that begins as this one does, and names no twin
     */
    public FaultScript with(
            List<Injection> otherInjections, List<Expectation> otherExpectations, Optional<End> otherEnd) {
        return new FaultScript(
                place,
                name,
                failSafes,
                why,
                needs,
                begin,
                otherInjections,
                otherExpectations,
                otherEnd,
                inhibited,
                derived,
                variant,
                List.of(),
                adjusted);
    }

    /**
     * The same script with a fail-safe left out from arming on.
     *
     * @param failSafe which the rig can leave out
     * @return the script
     */
    public FaultScript inhibiting(FailSafeDescription failSafe) {
        List<FailSafeDescription> all = new ArrayList<>(inhibited);
        if (!all.contains(failSafe)) {
            all.add(failSafe);
        }
        return with(all, adjusted);
    }

    /**
     * The same script with a constant of the control code that is another.
     *
     * @param adjustment which, and what it is
     * @return the script
     */
    public FaultScript adjusting(Adjustment adjustment) {
        return with(inhibited, List.of(adjustment));
    }

    /**
     * The same script with what its twin injects.
     *
     * @param injections of the twin
     * @return the script
     */
    public FaultScript withTwin(List<Injection> injections) {
        return new FaultScript(
                place,
                name,
                failSafes,
                why,
                needs,
                begin,
                this.injections,
                expectations,
                end,
                inhibited,
                derived,
                variant,
                injections,
                adjusted);
    }

    private FaultScript with(List<FailSafeDescription> otherInhibited, List<Adjustment> otherAdjusted) {
        return new FaultScript(
                place,
                name,
                failSafes,
                why,
                needs,
                begin,
                injections,
                expectations,
                end,
                otherInhibited,
                derived,
                variant,
                twin,
                otherAdjusted);
    }
}
