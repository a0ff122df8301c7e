package snagbench.virtualrig.shuttle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The run as it should be, over the seeds: noise alone, nothing disturbed. */
class NominalRunTests {
    private static final int SEEDS = 200;

    @Test
    void setsAllFourPotsAndParksWithTimeInReserveOnEverySeed() {
        List<String> others = new ArrayList<>();
        int slowest = 0;
        int quickest = Integer.MAX_VALUE;
        for (int seed = 1; seed <= SEEDS; seed++) {
            WholeMachine run = WholeMachine.standard().begin(seed, List.of());
            boolean parked = run.parks();
            int parkedAt = run.lastEntered(WholeMachine.PARKED);
            slowest = Math.max(slowest, parkedAt);
            quickest = Math.min(quickest, parkedAt);
            int set = run.plant().potsOnPegs();
            if (!parked || set != 4 || !run.answers().isEmpty()) {
                others.add("seed " + seed + ": parked " + parked + ", " + set + " pots set, "
                        + run.plant().potsLost() + " lost, fail-safes " + run.answers() + ", steps " + run.steps());
            }
        }
        assertEquals(List.of(), others, others.size() + " of " + SEEDS + " runs were not nominal");
        int latest = slowest;
        int earliest = quickest;
        assertTrue(
                earliest > 23_500 && latest < 26_500,
                () -> "parked after " + earliest + " to " + latest + " ms of 30000; about 5 s in reserve were wanted");
    }
}
