package snagbench.bench.report.register;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** How much later a run came to the steps of a nominal one. */
class MilestonesTests {
    /** Steps and the times at which they were entered, in ms. */
    private static List<Milestones.Entry> run(int... stepsAndMillis) {
        List<Milestones.Entry> entries = new ArrayList<>();
        for (int i = 0; i < stepsAndMillis.length; i += 2) {
            entries.add(
                    new Milestones.Entry(stepsAndMillis[i], stepsAndMillis[i + 1] / 5, stepsAndMillis[i + 1] * 1000L));
        }
        return entries;
    }

    private static final List<Milestones.Entry> NOMINAL = run(1, 10, 2, 1010, 3, 2010, 1, 3010, 2, 4010);

    private static Optional<Milestones.Reached> last(int... stepsAndMillis) {
        return Milestones.last(NOMINAL, run(stepsAndMillis));
    }

    @Test
    void theSameRunIsNotLater() {
        assertEquals(Optional.of(new Milestones.Reached(2, 802, 0)), Milestones.last(NOMINAL, NOMINAL));
    }

    @Test
    void stepsOfARecoveryArePassedOver() {
        assertEquals(
                Optional.of(new Milestones.Reached(3, 802, 2_000_000)), last(1, 10, 7, 500, 1, 1500, 2, 3010, 3, 4010));
    }

    @Test
    void aStepThatIsTriedAgainCountsWhenTheRunGoesOnFromIt() {
        // Out, grip, home; then out and grip once more before it is handed on.
        assertEquals(
                Optional.of(new Milestones.Reached(3, 822, 2_100_000)),
                last(1, 10, 2, 1010, 7, 1500, 2, 3010, 3, 4110));
    }

    @Test
    void timesCountFromEachRunsOwnFirstStep() {
        assertEquals(Optional.of(new Milestones.Reached(2, 222, 100_000)), last(1, 10, 2, 1110));
        assertEquals(Optional.of(new Milestones.Reached(2, 262, 0)), last(1, 310, 2, 1310));
    }

    @Test
    void aRunThatBeginsOtherwiseOrEndsAtOnceTellsNothing() {
        assertEquals(Optional.empty(), last(5, 10, 2, 1110));
        assertEquals(Optional.empty(), last(1, 10));
        assertEquals(Optional.empty(), last());
    }
}
