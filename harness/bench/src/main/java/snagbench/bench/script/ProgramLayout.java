package snagbench.bench.script;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Which entries of a rig's program the parts of a script are. Stages of the beginning come first, in order; then the
 * injections, in order as far as each comes behind what it hangs on: an injection that hangs on another one, or on an
 * expectation, which a waiting entry watches on the rig since the host would be late. Fail-safes that are left out from arming
 * on, and constants that are others from then on, come last.
 */
public final class ProgramLayout {
    private static final int NOT_YET = -1;
    private static final int UNDER_WAY = -2;

    private final FaultScript script;
    private final List<Part> parts = new ArrayList<>();
    private final int[] firstEntries;
    private final Map<Watch, Integer> watches = new HashMap<>();
    private final Set<Integer> anchors = new HashSet<>();
    private int entries;

    private ProgramLayout(FaultScript script) {
        this.script = script;
        this.firstEntries = new int[script.injections().size()];
        Arrays.fill(firstEntries, NOT_YET);
    }

    /** What a run of entries is for. */
    public sealed interface Part {}

    /**
     * A stage of the beginning: one entry.
     *
     * @param index in {@link FaultScript#begin}
     */
    public record OfStage(int index) implements Part {}

    /**
     * An injection: one entry for each of its forcings, in order.
     *
     * @param index in {@link FaultScript#injections}
     */
    public record OfInjection(int index) implements Part {}

    /**
     * Waits, on the rig, for an expectation on which an injection hangs: one entry.
     *
     * @param expectation what is waited for
     * @param occasion how often from its anchor on it must come about, from 1
     */
    public record Watch(Expectation.Timed expectation, int occasion) implements Part {}

    /**
     * Leaves a fail-safe out from arming on: one entry.
     *
     * @param failSafe which one
     */
    public record OfInhibition(FailSafeDescription failSafe) implements Part {}

    /**
     * Gives a constant of the control code another value from arming on: one entry.
     *
     * @param adjustment which, and what it is
     */
    public record OfAdjustment(FaultScript.Adjustment adjustment) implements Part {}

    /**
     * Lays a script out.
     *
     * @param script whose injections do not hang on each other in a circle
     * @return its layout
     */
    public static ProgramLayout of(FaultScript script) {
        ProgramLayout layout = new ProgramLayout(script);
        for (int stage = 0; stage < script.begin().size(); stage++) {
            layout.add(new OfStage(stage), 1);
        }
        for (int injection = 0; injection < script.injections().size(); injection++) {
            layout.injection(injection);
        }
        script.inhibited().forEach(failSafe -> layout.add(new OfInhibition(failSafe), 1));
        script.adjusted().forEach(adjustment -> layout.add(new OfAdjustment(adjustment), 1));
        return layout;
    }

    private void add(Part part, int count) {
        parts.add(part);
        entries += count;
    }

    private void injection(int index) {
        if (firstEntries[index] == UNDER_WAY) {
            throw new IllegalArgumentException("injections that hang on each other in a circle");
        }
        if (firstEntries[index] == NOT_YET) {
            firstEntries[index] = UNDER_WAY;
            anchor(script.injections().get(index).trigger().after());
            firstEntries[index] = entries;
            add(
                    new OfInjection(index),
                    script.injections().get(index).forcings().size());
        }
    }

    private void anchor(Anchor anchor) {
        if (anchor instanceof Anchor.OfInjection other) {
            anchors.add(other.index());
            injection(other.index());
        } else if (anchor instanceof Anchor.OfExpectation other) {
            Watch watch = watch(other);
            if (!watches.containsKey(watch)) {
                anchor(watch.expectation().after());
                watches.put(watch, entries);
                add(watch, 1);
            }
        }
    }

    private Watch watch(Anchor.OfExpectation anchor) {
        Expectation expectation = script.expectations().get(anchor.index());
        if (expectation instanceof Expectation.AnsweredBy answered) {
            return new Watch(answered, anchor.time() > 1 ? anchor.time() : answered.time());
        }
        if (expectation instanceof Expectation.Becomes becomes) {
            return new Watch(becomes, anchor.time() > 1 ? anchor.time() : becomes.time());
        }
        throw new IllegalArgumentException("the rig cannot watch for \"" + expectation.name() + "\"");
    }

    /**
     * What the program is made of, in the order of its entries.
     *
     * @return the parts
     */
    public List<Part> parts() {
        return List.copyOf(parts);
    }

    /**
     * How long the program is.
     *
     * @return number of its entries
     */
    public int entries() {
        return entries;
    }

    /**
     * The first entry of an injection, which carries its conditions.
     *
     * @param injection index in {@link FaultScript#injections}
     * @return index of the entry
     */
    public int firstEntryOfInjection(int injection) {
        return firstEntries[injection];
    }

    /**
     * Tells whether something on the rig hangs on an injection.
     *
     * @param injection index in {@link FaultScript#injections}
     * @return true if its first entry must be a stage
     */
    public boolean isAnchor(int injection) {
        return anchors.contains(injection);
    }

    /**
     * The entry on which something hangs that is counted from an anchor.
     *
     * @param anchor of an injection's trigger, or of an expectation that is watched
     * @return index of the entry; -1 for arming
     */
    public int entryOf(Anchor anchor) {
        if (anchor instanceof Anchor.OfInjection injection) {
            return firstEntries[injection.index()];
        }
        if (anchor instanceof Anchor.OfExpectation expectation) {
            return watches.getOrDefault(watch(expectation), NOT_YET);
        }
        return script.begin().size() - 1;
    }
}
