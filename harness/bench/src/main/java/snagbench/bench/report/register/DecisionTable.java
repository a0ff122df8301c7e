package snagbench.bench.report.register;

import java.util.List;
import java.util.Optional;

/**
 * The register's symptoms side by side: what two fail-safes claim, and what none answers though little lacks. It is worked out
 * from the register alone, on the channels' grids, and exact: where a region is given, each of its points is as is said; and
 * whatever the machine can reach. Times (how long a symptom must be there) are left out: where two claim a point, the one that
 * waits less comes first.
 *
 * @param overlaps what two claim with different responses
 * @param holes what none answers
 * @param leftOut symptoms that are no plain comparisons, and what was not looked at to its end
 */
public record DecisionTable(List<Overlap> overlaps, List<Hole> holes, List<String> leftOut) {
    /** Copies the lists. */
    public DecisionTable {
        overlaps = List.copyOf(overlaps);
        holes = List.copyOf(holes);
        leftOut = List.copyOf(leftOut);
    }

    private static List<Region> atLeastOne(List<Region> regions) {
        if (regions.isEmpty()) {
            throw new IllegalArgumentException("no region is given");
        }
        return List.copyOf(regions);
    }

    /**
     * Values of a channel.
     *
     * @param channel its name; with ".real" behind it where not the told reading is meant
     * @param least in the channel's steps
     * @param most in the channel's steps
     * @param words such as "100.0 mm .. 329.9 mm"
     */
    public record Range(String channel, int least, int most, String words) {
        String show() {
            return channel + " " + words;
        }
    }

    /**
     * A combination of readings.
     *
     * @param steps names of the steps in which it is meant; in the rig's order
     * @param where what each channel reads; one that is not named may read anything
     * @param example a point of it: one value a channel
     */
    public record Region(List<String> steps, List<Range> where, List<Range> example) {
        /** Copies the lists. */
        public Region {
            steps = List.copyOf(steps);
            where = List.copyOf(where);
            example = List.copyOf(example);
        }
    }

    /**
     * What two fail-safes claim.
     *
     * @param failSafes their names, as the register has them in order
     * @param first the one that answers by the register's own word ("order"); empty where it does not say
     * @param regions where, at least one
     */
    public record Overlap(List<String> failSafes, Optional<String> first, List<Region> regions) {
        /** Copies the lists. */
        public Overlap {
            failSafes = List.copyOf(failSafes);
            regions = atLeastOne(regions);
        }
    }

    /** Why a combination that none answers is worth a look. */
    public enum Kind {
        /** It lies between what two fail-safes claim: both would answer, were one channel a little otherwise. */
        BETWEEN,
        /** One fail-safe would answer, were one channel otherwise. Much of that is the machine as it should be. */
        BESIDE,
        /** One fail-safe would answer, were the step another. Much of that is the machine as it should be. */
        OTHER_STEP
    }

    /**
     * What none answers.
     *
     * @param kind why it is told
     * @param failSafes the two, or the one, that would answer
     * @param channel which lacks; the step's for {@link Kind#OTHER_STEP}
     * @param regions where, at least one. Of each, the example is answered by none; of {@link Kind#BETWEEN} and
     *     {@link Kind#BESIDE} other points of the region may be answered by others, who look at other channels
     */
    public record Hole(Kind kind, List<String> failSafes, String channel, List<Region> regions) {
        /** Copies the lists. */
        public Hole {
            failSafes = List.copyOf(failSafes);
            regions = atLeastOne(regions);
        }
    }

    /**
     * What two claim and the register does not say which of them answers.
     *
     * @return in the register's order
     */
    public List<Overlap> undecided() {
        return overlaps.stream().filter(one -> one.first().isEmpty()).toList();
    }

    /**
     * The holes of a kind.
     *
     * @param kind which
     * @return in the register's order
     */
    public List<Hole> holes(Kind kind) {
        return holes.stream().filter(one -> one.kind() == kind).toList();
    }
}
