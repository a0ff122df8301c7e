package snagbench.virtualrig.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class BatteryTests {
    /** V = Voc - I*Ri (standard): 12.6 V behind 0.15 ohm at 5 A. */
    @Test
    void sagsByCurrentTimesResistance() {
        Battery battery = new Battery(0.15, 0);
        battery.reset(12.6);
        assertEquals(11.85, battery.terminalVolts(5), 1e-12);
    }

    /** The same behind a stalled motor of 1.2 ohm at full duty: 9.333333 A and 11.2 V; behind two: 16.8 A, 10.08 V. */
    @Test
    void sagsWithStalledMotors() {
        MotorSlide one = new MotorSlide(new DcMotor(1.2, 0.02, 2e-5), 1e-3, 1);
        double amperes = one.motorAmperes(1, 12.6, 0.15);
        Battery battery = new Battery(0.15, 0);
        battery.reset(12.6);
        assertEquals(9.333333, amperes, 1e-6);
        assertEquals(11.2, battery.terminalVolts(amperes), 1e-12);

        MotorSlide two = new MotorSlide(new DcMotor(0.6, 0.02, 2e-5), 1e-3, 1);
        double both = two.motorAmperes(1, 12.6, 0.15);
        assertEquals(16.8, both, 1e-12);
        assertEquals(10.08, battery.terminalVolts(both), 1e-12);
    }

    /** At part duty the battery gives duty times the motor's current; terminal voltage and current must agree. */
    @Test
    void solvesVoltageAndCurrentTogether() {
        MotorSlide slide = new MotorSlide(new DcMotor(1.2, 0.02, 2e-5), 1e-3, 1);
        Battery battery = new Battery(0.4, 0);
        battery.reset(12.6);
        for (double duty = -1; duty <= 1; duty += 0.125) {
            double motor = slide.motorAmperes(duty, 12.6, 0.4);
            double terminal = battery.terminalVolts(duty * motor);
            assertEquals(duty * terminal, 1.2 * motor, 1e-12, "duty " + duty);
        }
    }

    @Test
    void emptiesInAStraightLineAndIsFullAfterAReset() {
        Battery battery = new Battery(0.1, 4e-5);
        battery.reset(12.6);
        battery.draw(2500);
        assertEquals(12.5, battery.openVolts(), 1e-12);
        assertEquals(2500, battery.drawnCoulombs());
        battery.reset(12.7);
        assertEquals(12.7, battery.openVolts());
    }

    @Test
    void refusesAnInternalResistanceBelowZero() {
        assertThrows(IllegalArgumentException.class, () -> new Battery(-0.1, 0));
        assertThrows(IllegalArgumentException.class, () -> new Battery(0.1, -1));
    }
}
