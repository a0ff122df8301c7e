package snagbench.virtualrig.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Wheels that roll as one with their body, and spin where the floor carries no more. */
class WheelDriveTests {
    private static final DcMotor MOTOR = new DcMotor(0.6, 0.02, 5e-6);
    private static final double METRES_PER_RADIAN = 1.3e-3;
    private static final double BODY = 7;
    private static final Friction GEARS = new Friction(9, 7, 4);
    private static final double GAIN = 0.02 / METRES_PER_RADIAN;

    private static WheelDrive drive(double grip) {
        WheelDrive drive = new WheelDrive(MOTOR, METRES_PER_RADIAN, BODY, grip);
        drive.setFriction(GEARS);
        return drive;
    }

    private static void run(WheelDrive drive, double seconds, double duty) {
        for (int i = 0; i < Math.round(seconds / 250e-6); i++) {
            drive.advance(250e-6, duty, 12, 0.08);
        }
    }

    @Test
    void isASlideWhereTheFloorCarriesAll() {
        WheelDrive drive = drive(1e6);
        MotorSlide slide = new MotorSlide(MOTOR, METRES_PER_RADIAN, BODY);
        slide.setFriction(GEARS);
        for (double duty : new double[] {0.9, -0.4, 0}) {
            for (int i = 0; i < 2000; i++) {
                double charge = drive.advance(250e-6, duty, 12, 0.08);
                assertEquals(slide.advance(250e-6, duty, 12, 0.08), charge);
                assertEquals(slide.position(), drive.position());
                assertEquals(slide.speed(), drive.speed());
            }
        }
        assertFalse(drive.isSpinning());
    }

    /** Spinning, the body gains v = F/m*t whatever the motors do; s = F/m*t^2/2. Off by the step that it begins late. */
    @Test
    void acceleratesByItsGripAloneWhileItSpins() {
        double grip = 20;
        WheelDrive drive = drive(grip);
        run(drive, 0.1, 1);
        assertTrue(drive.isSpinning());
        assertEquals(grip / BODY * 0.1, drive.speed(), 0.01);
        assertEquals(grip / BODY * 0.1 * 0.1 / 2, drive.position(), 1e-3);
    }

    /** At the stop the wheels spin at w where G*i = grip + c + b*w: i = (d*E - G*w)/(R + d^2*r). */
    @Test
    void drawsAgainstAStopWhatSpinningTakesAndNotWhatAStallWould() {
        double grip = 0.8 * 9.81 * BODY;
        WheelDrive drive = drive(grip);
        drive.setStops(0, 0);
        run(drive, 2, 1);
        assertTrue(drive.isSpinning());
        assertEquals(0, drive.position());
        double ohms = 0.6 + 0.08;
        double spins = (GAIN * 12 / ohms - grip - 7) / (GAIN * GAIN / ohms + 4);
        assertEquals((12 - GAIN * spins) / ohms, drive.motorAmperes(1, 12, 0.08), 1e-6);
        assertTrue(drive.motorAmperes(1, 12, 0.08) < 12 / ohms / 2, "far from the stall current");
    }

    @Test
    void stallsAgainstAStopWithLessDriveThanItsGrip() {
        WheelDrive drive = drive(1000);
        drive.setStops(0, 0);
        run(drive, 0.5, 0.5);
        assertFalse(drive.isSpinning());
        assertEquals(0.5 * 12 / (0.6 + 0.25 * 0.08), drive.motorAmperes(0.5, 12, 0.08), 1e-9);
    }

    @Test
    void rollsAgainOnceWheelsAndBodyHaveTheSameSpeed() {
        WheelDrive drive = drive(20);
        run(drive, 0.05, 1);
        assertTrue(drive.isSpinning());
        run(drive, 3, 1);
        assertFalse(drive.isSpinning());
        double ohms = 0.6 + 0.08;
        double end = (GAIN * 12 / ohms - 7) / (GAIN * GAIN / ohms + 4);
        assertEquals(end, drive.speed(), 1e-6);
    }

    @Test
    void standsWhereItWasShoved() {
        WheelDrive drive = drive(55);
        drive.shove(0.08);
        run(drive, 0.5, 0);
        assertEquals(0.08, drive.position(), 1e-12);
        assertEquals(0, drive.speed());
        drive.setStops(0.08, 1);
        run(drive, 0.5, -0.3);
        assertEquals(0.08, drive.position(), 1e-12);
        drive.setStops(0, 1);
        run(drive, 2, -0.3);
        assertEquals(0, drive.position(), 1e-12);
    }
}
