package snagbench.bench.serve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class PacingTests {
    private static final long WALL = 77_000_123_456_789L;

    @Test
    void keepsTheRigAtTheWallsTimeHoweverLateTheRoundsAre() {
        Pacing pacing = new Pacing(2000, 250_000, 5_000_000, WALL);
        Random late = new Random(1);
        long wall = WALL;
        long rig = 5_000_000;
        for (int round = 0; round < 100_000; round++) {
            wall += pacing.nanosToNextRound(wall) + late.nextInt(15_000_000);
            assertEquals(0, pacing.standStill(rig, wall));
            rig = pacing.target(wall);
            assertEquals(5_000_000 + (wall - WALL) / 1000, rig);
        }
    }

    @Test
    void beginsRoundsAtTimesThatDoNotShift() {
        Pacing pacing = new Pacing(2000, 250_000, 0, WALL);
        assertEquals(2_000_000, pacing.nanosToNextRound(WALL));
        assertEquals(1, pacing.nanosToNextRound(WALL + 1_999_999));
        assertEquals(2_000_000, pacing.nanosToNextRound(WALL + 2_000_000));
        assertEquals(700_000, pacing.nanosToNextRound(WALL + 1_000_000_000_000L + 1_300_000));
    }

    @Test
    void letsTheRigStandStillWhenItIsTooLateToCatchUp() {
        Pacing pacing = new Pacing(2000, 250_000, 1000, WALL);
        long wall = WALL + 250_000_000;
        assertEquals(0, pacing.standStill(1000, wall));
        assertEquals(251_000, pacing.target(wall));
        long later = wall + 9_000_000_000L;
        assertEquals(9_000_000, pacing.standStill(251_000, later));
        assertEquals(251_000, pacing.target(later));
        assertEquals(252_000, pacing.target(later + 1_000_000));
    }

    @Test
    void staysExactAfterADay() {
        Pacing pacing = new Pacing(2000, 250_000, 0, WALL);
        long day = 86_400_000_000_000L;
        assertEquals(day / 1000, pacing.target(WALL + day));
        assertTrue(pacing.nanosToNextRound(WALL + day) <= 2_000_000);
    }
}
