package snagbench.virtualrig.shuttle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** The figures that the shuttle's scripts count on, over its seeds. */
class ShuttlePlantTests {
    private static void run(ShuttlePlant plant, int drive, int micros) {
        plant.reach(drive);
        for (int passed = 0; passed < micros; passed += 250) {
            plant.advance(250);
        }
        plant.sample();
    }

    @Test
    void runsOutAtAbout350MillimetresASecondAndOneAmpere() {
        for (int seed = 0; seed < 50; seed++) {
            ShuttlePlant plant = new ShuttlePlant(true, false);
            plant.reset(seed);
            run(plant, 1000, 500_000);
            int from = plant.reachPosition();
            run(plant, 1000, 100_000);
            int speed = plant.reachPosition() - from;
            assertTrue(speed >= 335 && speed <= 365, "seed " + seed + ": " + speed + " mm/s");
            assertTrue(
                    plant.reachCurrent() >= 70 && plant.reachCurrent() <= 120,
                    "seed " + seed + ": " + plant.reachCurrent() + " in 10 mA");
        }
    }

    @Test
    void stallsAtTheRackFaceWithAboutEightAmperes() {
        Set<Integer> faces = new HashSet<>();
        for (int seed = 0; seed < 50; seed++) {
            ShuttlePlant plant = new ShuttlePlant(true, false);
            plant.reset(seed);
            run(plant, 1000, 3_000_000);
            int face = plant.reachPosition();
            faces.add(face);
            assertTrue(face >= 3900 && face <= 3940, "seed " + seed + ": " + face);
            assertTrue(
                    plant.reachCurrent() >= 780 && plant.reachCurrent() <= 840,
                    "seed " + seed + ": " + plant.reachCurrent());
            assertEquals(1, plant.gripperBeam());
        }
        assertTrue(faces.size() > 20, "the rack stands elsewhere from seed to seed");
    }

    @Test
    void breaksTheBeamAtThePot() {
        for (int seed = 0; seed < 50; seed++) {
            ShuttlePlant plant = new ShuttlePlant(true, false);
            plant.reset(seed);
            int before = 0;
            while (plant.gripperBeam() == 0) {
                before = plant.reachPosition();
                run(plant, 300, 250);
            }
            assertTrue(before >= 3650 && before <= 3700, "seed " + seed + ": " + before);
        }
    }

    @Test
    void takesThePotAlongOnlyOnceTheFingersHaveClosed() {
        ShuttlePlant plant = new ShuttlePlant(true, false);
        run(plant, 800, 1_600_000);
        run(plant, 0, 300_000);
        assertEquals(1, plant.gripperBeam());
        plant.gripper(1);
        run(plant, 0, 60_000);
        plant.gripper(0);
        run(plant, -800, 300_000);
        assertEquals(0, plant.gripperBeam(), "the fingers had not closed");

        plant.reset(0);
        run(plant, 800, 1_600_000);
        plant.gripper(1);
        run(plant, 0, 200_000);
        run(plant, -800, 1_000_000);
        assertEquals(1, plant.gripperBeam());
        plant.gripper(0);
        run(plant, 0, 200_000);
        assertEquals(0, plant.gripperBeam(), "let go of it");
    }

    @Test
    void hasNeitherPotNorRackOnABenchWithoutThem() {
        ShuttlePlant plant = new ShuttlePlant(false, false);
        run(plant, 1000, 3_000_000);
        assertEquals(4250, plant.reachPosition());
        assertEquals(0, plant.gripperBeam());
    }

    @Test
    void isStoppedByAnObstacleUntilItIsTakenAway() {
        ShuttlePlant plant = new ShuttlePlant(true, false);
        plant.putObstacle(2200);
        run(plant, 800, 2_000_000);
        assertEquals(2200, plant.reachPosition());
        plant.putObstacle(0);
        run(plant, 800, 200_000);
        assertTrue(plant.reachPosition() > 2300);
    }

    @Test
    void passesAnObstacleThatWasPutBehindIt() {
        ShuttlePlant plant = new ShuttlePlant(true, false);
        run(plant, 800, 800_000);
        assertTrue(plant.reachPosition() > 1600);
        plant.putObstacle(1000);
        run(plant, -800, 2_000_000);
        assertEquals(-50, plant.reachPosition());
        run(plant, 800, 1_000_000);
        assertTrue(plant.reachPosition() > 1600, "it was not put, and does not come about on the way home");
    }

    @Test
    void isTheSameAfterAResetAsWhenNew() {
        ShuttlePlant used = new ShuttlePlant(true, false);
        used.putObstacle(1500);
        used.gripper(1);
        run(used, 900, 1_234_500);
        used.reset(17);
        ShuttlePlant fresh = new ShuttlePlant(true, false);
        fresh.reset(17);
        for (int i = 0; i < 400; i++) {
            assertEquals(fresh.reachPosition(), used.reachPosition());
            assertEquals(fresh.reachCurrent(), used.reachCurrent());
            assertEquals(fresh.batteryVoltage(), used.batteryVoltage());
            assertEquals(fresh.gripperBeam(), used.gripperBeam());
            run(used, 700, 5000);
            run(fresh, 700, 5000);
        }
    }

    /** Worn to 2 ohm: 80 % into a stall gives (12.4 .. 12.7 - 0.7) / (1 + 2 * 0.64 / 1.45) = 6.2 to 6.4 V, and nothing less does. */
    @Test
    void brownsOutOnlyWhereAWornBatteryMeetsAStall() {
        for (int seed = 0; seed < 50; seed++) {
            ShuttlePlant good = new ShuttlePlant(true, false);
            good.reset(seed);
            run(good, 1000, 3_000_000);
            assertTrue(good.supplyVolts() > 11);

            ShuttlePlant worn = new ShuttlePlant(true, true);
            worn.reset(seed);
            run(worn, 800, 1_000_000);
            assertTrue(worn.supplyVolts() > 8.5, "seed " + seed + ": " + worn.supplyVolts() + " V while moving");
            worn.putObstacle(worn.reachPosition() + 50);
            run(worn, 800, 500_000);
            assertTrue(
                    worn.supplyVolts() > 6.15 && worn.supplyVolts() < 6.45,
                    "seed " + seed + ": " + worn.supplyVolts() + " V stalled");
        }
    }

    @Test
    void readsTheSameHoweverOftenItIsAskedInATick() {
        ShuttlePlant plant = new ShuttlePlant(true, false);
        run(plant, 800, 300_000);
        int current = plant.reachCurrent();
        int voltage = plant.batteryVoltage();
        for (int i = 0; i < 10; i++) {
            assertEquals(current, plant.reachCurrent());
            assertEquals(voltage, plant.batteryVoltage());
        }
        Set<Integer> noisy = new HashSet<>();
        for (int i = 0; i < 100; i++) {
            plant.sample();
            noisy.add(plant.batteryVoltage());
        }
        assertNotEquals(1, noisy.size());
    }
}
