package snagbench.virtualrig.shuttle.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import snagbench.wire.StopReason;

/** The small parts of the control code, each by itself; whole runs are in ShuttleRunTests. */
class ShuttleControlPartsTests {
    /** The controller's clock wraps after 71.6 min; nothing may hang on that. */
    private static final int JUST_BEFORE_THE_WRAP = -20_000;

    @Test
    void knowsItsSpeedOverEightTicks() {
        Speedometer speedometer = new Speedometer();
        int micros = JUST_BEFORE_THE_WRAP;
        for (int tick = 0; tick < 8; tick++) {
            speedometer.add(tick * 14, micros);
            micros += 5000;
            assertFalse(speedometer.isKnown(), "tick " + tick);
        }
        speedometer.add(8 * 14, micros);
        assertTrue(speedometer.isKnown());
        // 11.2 mm in 40 ms.
        assertEquals(2800, speedometer.speed());
        speedometer.restart(0, micros);
        assertFalse(speedometer.isKnown());
    }

    @Test
    void goesByTimeAndNotByTicks() {
        Speedometer even = new Speedometer();
        Speedometer uneven = new Speedometer();
        int micros = 0;
        for (int tick = 0; tick <= 8; tick++) {
            even.add(tick * 20, tick * 5000);
            uneven.add(micros / 250, micros);
            micros += 4000 + 500 * tick;
        }
        assertEquals(4000, even.speed());
        assertEquals(4000, uneven.speed());
    }

    @Test
    void takesASymptomForRealOnceItHasHeld() {
        Debounce debounce = new Debounce();
        int start = JUST_BEFORE_THE_WRAP;
        assertFalse(debounce.hasHeld(true, start, 60_000));
        assertFalse(debounce.hasHeld(true, start + 59_999, 60_000));
        assertTrue(debounce.hasHeld(true, start + 60_000, 60_000));
        assertFalse(debounce.hasHeld(false, start + 65_000, 60_000));
        assertFalse(debounce.hasHeld(true, start + 70_000, 60_000));
        assertFalse(debounce.hasHeld(true, start + 129_999, 60_000));
        assertTrue(debounce.hasHeld(true, start + 130_000, 60_000));
        debounce.restart();
        assertFalse(debounce.hasHeld(true, start + 135_000, 60_000));
    }

    @Test
    void growsItsDriveGentlyAndCutsItAtOnce() {
        ReachDrive drive = new ReachDrive();
        assertEquals(0, drive.towards(800, 0));
        assertEquals(25, drive.towards(800, 5000));
        assertEquals(51, drive.towards(800, 5200));
        for (int i = 0; i < 40; i++) {
            drive.towards(800, 5000);
        }
        assertEquals(800, drive.towards(800, 5000));
        assertEquals(300, drive.towards(300, 5000));
        assertEquals(-25, drive.towards(-800, 5000));
        assertEquals(0, drive.towards(0, 5000));
    }

    @Test
    void comesHomeSlowerTheNearerItIs() {
        assertEquals(-800, ReachDrive.homewards(3000, 800));
        assertEquals(-600, ReachDrive.homewards(300, 800));
        assertEquals(-200, ReachDrive.homewards(50, 800));
        assertEquals(0, ReachDrive.homewards(10, 800));
        assertEquals(200, ReachDrive.homewards(-30, 800));
        assertTrue(ReachDrive.isHome(-20) && ReachDrive.isHome(20));
        assertFalse(ReachDrive.isHome(21));
    }

    @Test
    void stopsOnceTheEncoderStandsOrItsTimeIsOver() {
        int[] position = {1000};
        int[] micros = {JUST_BEFORE_THE_WRAP};
        int[] drive = {800};
        int[] lift = {700};
        int[] base = {600};
        ShuttleInputs inputs = new ShuttleInputs() {
            @Override
            public int reachPosition() {
                return position[0];
            }

            @Override
            public int reachCurrent() {
                return 0;
            }

            @Override
            public int gripperBeam() {
                return 0;
            }

            @Override
            public int batteryVoltage() {
                return 1200;
            }

            @Override
            public int throatBeam() {
                return 0;
            }

            @Override
            public int liftPosition() {
                return 0;
            }

            @Override
            public int liftCurrent() {
                return 0;
            }

            @Override
            public int basePosition() {
                return 0;
            }

            @Override
            public int baseHeading() {
                return 0;
            }

            @Override
            public int frontDistance() {
                return 5200;
            }
        };
        ShuttleOutputs outputs = new ShuttleOutputs() {
            @Override
            public void reach(int given) {
                drive[0] = given;
            }

            @Override
            public void gripper(int closed) {
                throw new AssertionError("the stop must not touch the gripper");
            }

            @Override
            public void lift(int given) {
                lift[0] = given;
            }

            @Override
            public void latch(int closed) {
                throw new AssertionError("the stop must not touch the clamp");
            }

            @Override
            public void base(int forward, int steer) {
                base[0] = Math.abs(forward) + Math.abs(steer);
            }
        };
        ShuttleStop stop = new ShuttleStop(inputs, outputs, () -> micros[0]);

        stop.stop(StopReason.LEASE);
        assertEquals(0, drive[0]);
        assertEquals(0, lift[0]);
        assertEquals(0, base[0]);
        assertFalse(stop.isStopped());
        for (int tick = 1; tick <= 3; tick++) {
            micros[0] += 5000;
            position[0] += 5;
            assertFalse(stop.isStopped(), "still moves");
        }
        int standing = 0;
        while (!stop.isStopped()) {
            micros[0] += 5000;
            standing++;
        }
        assertTrue(standing >= 4 && standing <= 6, "ticks " + standing);

        stop.stop(StopReason.GUARD);
        int began = micros[0];
        while (!stop.isStopped()) {
            drive[0] = 500;
            micros[0] += 5000;
            position[0] += 5;
        }
        assertEquals(300_000, micros[0] - began);
        assertEquals(0, drive[0], "whoever drove in between");
    }
}
