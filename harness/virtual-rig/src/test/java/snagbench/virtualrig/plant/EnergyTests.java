package snagbench.virtualrig.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class EnergyTests {
    private static final DcMotor MOTOR = new DcMotor(1.45, 0.02, 1e-5);
    private static final Friction FRICTION = new Friction(30, 24, 10);
    private static final double VOLTS = 12.5;
    private static final double SOURCE_OHMS = 0.08;

    /** What the source gave went into windings, source, friction and motion; Simpson's rule over sub-steps for the losses. */
    @Test
    void accountsForAllThatTheSourceGave() {
        MotorSlide slide = new MotorSlide(MOTOR, 0.65e-3, 1.5);
        slide.setFriction(FRICTION);
        double step = 125e-6;
        double given = 0;
        double lost = 0;
        for (int i = 0; i < 8000; i++) {
            double duty = i < 4000 ? 0.8 : 0.3;
            double start = loss(slide, duty);
            given += VOLTS * slide.advance(step / 2, duty, VOLTS, SOURCE_OHMS);
            double middle = loss(slide, duty);
            given += VOLTS * slide.advance(step / 2, duty, VOLTS, SOURCE_OHMS);
            lost += (start + 4 * middle + loss(slide, duty)) * step / 6;
        }
        double motion = slide.effectiveMass() * slide.speed() * slide.speed() / 2;
        assertTrue(given > 5 && motion > 0.05);
        assertEquals(given, lost + motion, given * 1e-9);
    }

    private static double loss(MotorSlide slide, double duty) {
        double amperes = slide.motorAmperes(duty, VOLTS, SOURCE_OHMS);
        double friction = (FRICTION.coulombNewtons() + FRICTION.viscous() * slide.speed()) * slide.speed();
        return amperes * amperes * (MOTOR.resistanceOhms() + duty * duty * SOURCE_OHMS) + friction;
    }

    /** Whatever the drive does: no more energy of motion than was put in, and none made while braking. */
    @Test
    void makesNoEnergy() {
        for (int seed = 0; seed < 200; seed++) {
            SplitMix64 random = new SplitMix64(seed);
            MotorSlide slide = new MotorSlide(MOTOR, 0.65e-3, 1.5);
            slide.setFriction(FRICTION.times(random.between(0, 1.5)));
            slide.setStops(-0.005, 0.3);
            double given = 0;
            double duty = 0;
            for (int i = 0; i < 2000; i++) {
                if (i % 50 == 0) {
                    duty = random.between(0, 1) < 0.3 ? 0 : random.between(-1, 1);
                }
                double before = motion(slide);
                given += VOLTS * slide.advance(250e-6, duty, VOLTS, SOURCE_OHMS);
                if (duty == 0) {
                    assertTrue(motion(slide) <= before, "seed " + seed + ", step " + i);
                }
                assertTrue(motion(slide) <= given + 1e-9, "seed " + seed + ", step " + i);
                assertTrue(slide.position() >= -0.005 && slide.position() <= 0.3, "seed " + seed + ", step " + i);
            }
        }
    }

    private static double motion(MotorSlide slide) {
        return slide.effectiveMass() * slide.speed() * slide.speed() / 2;
    }
}
