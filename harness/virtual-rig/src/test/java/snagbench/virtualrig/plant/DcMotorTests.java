package snagbench.virtualrig.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DcMotorTests {
    private static final double RPM = 2 * Math.PI / 60;

    /**
     * MIT, "Understanding D.C. Motor Characteristics" (lancet.mit.edu/motor/motors3-4.html): half the no-load speed at half
     * the stall torque, and there the greatest power, stall torque * no-load speed / 4. Power worked out from their figures.
     */
    @ParameterizedTest
    @CsvSource({
        "green gearmotor, 600,  0.325,  300,  0.163,  5.1051",
        "silver,          3750, 0.0722, 1875, 0.0361, 7.0882",
        "bosch,           92,   1.6,    46,   0.80,   3.8537"
    })
    void keepsToTheStraightLine(
            String name, double noLoadRpm, double stallTorque, double halfRpm, double halfTorque, double mostPower) {
        double volts = 12;
        DcMotor motor = DcMotor.ofLine(volts, noLoadRpm * RPM, stallTorque, 1e-5);

        assertEquals(stallTorque, motor.torque(volts, 0), 1e-12);
        assertEquals(0, motor.torque(volts, noLoadRpm * RPM), 1e-12);
        double atHalf = motor.torque(volts, halfRpm * RPM);
        assertEquals(halfTorque, atHalf, 0.0006);
        assertEquals(mostPower, atHalf * halfRpm * RPM, 0.00006);
    }

    /** Stall current V/R and torque K*V/R (standard) of a made-up bench motor. */
    @Test
    void stallsAtVoltsByOhms() {
        DcMotor motor = new DcMotor(1.2, 0.02, 2e-5);
        assertEquals(10, motor.current(12, 0), 1e-12);
        assertEquals(0.2, motor.torque(12, 0), 1e-12);
    }

    @Test
    void refusesFiguresThatMakeNoMotor() {
        assertThrows(IllegalArgumentException.class, () -> new DcMotor(0, 0.02, 0));
        assertThrows(IllegalArgumentException.class, () -> new DcMotor(1, Double.NaN, 0));
        assertThrows(IllegalArgumentException.class, () -> new DcMotor(1, 0.02, -1e-9));
    }
}
