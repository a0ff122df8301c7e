package snagbench.virtualrig.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * With one metre a radian and no moving mass the slide is the bare rotor: speeds are rad/s, forces N*m. The bench motor is
 * made up (12 V, 1.2 ohm, K 0.02, J 2e-5, b 1e-5, Coulomb torque 0.004); its values are from the first-order closed form
 * tau = J*R/(K^2 + b*R), w = w_end * (1 - e^(-t/tau)), w_end = (K*V/R - Tc)/(K^2/R + b), i = (V - K*w)/R, worked out
 * apart from this code.
 */
class MotorSlideTests {
    private static final double TAU = 0.058252427184466;

    private static MotorSlide rotor() {
        MotorSlide rotor = new MotorSlide(new DcMotor(1.2, 0.02, 2e-5), 1, 0);
        rotor.setFriction(new Friction(0.004, 0.004, 1e-5));
        return rotor;
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 7, 233, 2000})
    void spinsUpAsTheClosedFormSays(int stepsPerTau) {
        double[] speeds = {360.861057, 493.614421, 542.451654};
        double[] amperes = {3.985649, 1.773093, 0.959139};
        MotorSlide rotor = rotor();
        assertEquals(10, rotor.motorAmperes(1, 12, 0), 1e-12);
        for (int tau = 1; tau <= 3; tau++) {
            for (int i = 0; i < stepsPerTau; i++) {
                rotor.advance(TAU / stepsPerTau, 1, 12, 0);
            }
            assertEquals(speeds[tau - 1], rotor.speed(), 1e-6, tau + " tau");
            assertEquals(amperes[tau - 1], rotor.motorAmperes(1, 12, 0), 1e-6, tau + " tau");
        }
    }

    @Test
    void endsAtNoLoadSpeedAndCurrent() {
        MotorSlide rotor = rotor();
        for (int i = 0; i < 8000; i++) {
            rotor.advance(250e-6, 1, 12, 0);
        }
        assertEquals(570.873786, rotor.speed(), 1e-6);
        assertEquals(0.485437, rotor.motorAmperes(1, 12, 0), 1e-6);
    }

    /**
     * Control Tutorials of the University of Michigan, "DC Motor Speed" (J .01, b .1, K .01, R 1, L .5; 1 V): at rest of the
     * winding, where the inductance that we neglect does not matter, w = 0.0999001 and i = 0.9990010.
     */
    @Test
    void settlesWhereAMotorWithInductanceDoes() {
        MotorSlide rotor = new MotorSlide(new DcMotor(1, 0.01, 0.01), 1, 0);
        rotor.setFriction(new Friction(0, 0, 0.1));
        for (int i = 0; i < 8000; i++) {
            rotor.advance(250e-6, 1, 1, 0);
        }
        rotor.advance(60, 1, 1, 0);
        assertEquals(0.0999001, rotor.speed(), 1e-7);
        assertEquals(0.9990010, rotor.motorAmperes(1, 1, 0), 1e-7);
    }

    /** A supply with resistance is the same as more resistance in the motor, by duty squared. */
    @Test
    void feelsTheSupplysResistanceByDutySquared() {
        MotorSlide soft = rotor();
        MotorSlide stiff = new MotorSlide(new DcMotor(1.2 + 0.25 * 0.8, 0.02, 2e-5), 1, 0);
        stiff.setFriction(new Friction(0.004, 0.004, 1e-5));
        for (int i = 0; i < 100; i++) {
            double charge = soft.advance(1e-3, 0.5, 12, 0.8);
            assertEquals(charge, stiff.advance(1e-3, 0.5, 12, 0), 1e-15);
        }
        assertEquals(stiff.speed(), soft.speed(), 1e-9);
        assertTrue(soft.speed() > 100);
    }

    /** Gearing: G = K/r, rotor's inertia J/r^2 at the slide. */
    @Test
    void gearsSpeedForceAndInertia() {
        MotorSlide slide = new MotorSlide(new DcMotor(1.2, 0.02, 2e-5), 0.5e-3, 3);
        assertEquals(40, slide.newtonsPerAmpere(), 1e-12);
        assertEquals(83, slide.effectiveMass(), 1e-9);
        for (int i = 0; i < 20_000; i++) {
            slide.advance(250e-6, 1, 12, 0);
        }
        assertEquals(12 / 40.0, slide.speed(), 1e-9);
    }

    @Test
    void staysUntilStictionIsOvercome() {
        MotorSlide slide = new MotorSlide(new DcMotor(1, 0.02, 1e-5), 1e-3, 1);
        slide.setFriction(new Friction(30, 20, 0));
        // 20 N/A: 30 N need 1.5 A, 1.5 V at 1 ohm.
        double charge = slide.advance(1e-3, 0.149, 10, 0);
        assertEquals(0, slide.speed());
        assertEquals(0.149 * 1.49 * 1e-3, charge, 1e-15);
        slide.advance(1e-3, 0.151, 10, 0);
        assertTrue(slide.speed() > 0);
        slide.place(0);
        slide.advance(1e-3, -0.149, 10, 0);
        assertEquals(0, slide.speed());
        slide.advance(1e-3, -0.151, 10, 0);
        assertTrue(slide.speed() < 0);
    }

    /** Under Coulomb friction alone (next to no back-EMF): stops after v^2*m/(2*F), and then stays. */
    @Test
    void runsOutUnderCoulombFriction() {
        MotorSlide slide = new MotorSlide(new DcMotor(1, 1e-3, 0), 1, 2);
        slide.setFriction(new Friction(0, 0, 0));
        slide.advance(1, 1, 400, 0);
        double speed = slide.speed();
        assertEquals(0.2, speed, 1e-6);
        slide.setFriction(new Friction(3, 3, 0));
        double from = slide.position();
        for (int i = 0; i < 2000; i++) {
            slide.advance(250e-6, 0, 0, 0);
        }
        assertEquals(0, slide.speed());
        assertEquals(speed * speed * 2 / (2 * 3), slide.position() - from, 1e-9);
    }

    @Test
    void standsAtAStopWithTheStallCurrentAndLeavesItAgain() {
        MotorSlide slide = new MotorSlide(new DcMotor(1.5, 0.02, 1e-5), 0.65e-3, 1.5);
        slide.setFriction(new Friction(30, 24, 10));
        slide.setStops(-0.005, 0.22);
        for (int i = 0; i < 4 * 2000; i++) {
            slide.advance(250e-6, 0.8, 12, 0.1);
        }
        assertEquals(0.22, slide.position());
        assertEquals(0, slide.speed());
        assertEquals(0.8 * 12 / (1.5 + 0.64 * 0.1), slide.motorAmperes(0.8, 12, 0.1), 1e-12);
        for (int i = 0; i < 4 * 2000; i++) {
            slide.advance(250e-6, -0.8, 12, 0.1);
        }
        assertEquals(-0.005, slide.position());
        assertEquals(0, slide.speed());
    }

    @Test
    void isHeldByAStopPutBehindIt() {
        MotorSlide slide = new MotorSlide(new DcMotor(1.5, 0.02, 1e-5), 0.65e-3, 1.5);
        slide.setFriction(new Friction(0, 0, 0));
        slide.advance(0.5, 1, 12, 0);
        double at = slide.position();
        slide.setStops(-1, at / 2);
        slide.advance(250e-6, 1, 12, 0);
        assertEquals(at, slide.position());
        assertEquals(0, slide.speed());
        slide.advance(250e-6, -1, 12, 0);
        assertTrue(slide.position() < at);
    }

    @Test
    void brakesAtDutyZero() {
        MotorSlide slide = new MotorSlide(new DcMotor(1.5, 0.02, 1e-5), 0.65e-3, 1.5);
        slide.setFriction(new Friction(0, 0, 0));
        slide.advance(1, 1, 12, 0);
        double speed = slide.speed();
        double tau = slide.effectiveMass() * 1.5 / (slide.newtonsPerAmpere() * slide.newtonsPerAmpere());
        assertEquals(0, slide.advance(tau, 0, 12, 0), 1e-300);
        assertEquals(speed * Math.exp(-1), slide.speed(), 1e-12);
        assertTrue(slide.motorAmperes(0, 12, 0) < 0);
    }
}
