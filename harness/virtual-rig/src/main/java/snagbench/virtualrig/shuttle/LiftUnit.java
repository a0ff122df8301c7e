package snagbench.virtualrig.shuttle;

import snagbench.virtualrig.plant.DcMotor;
import snagbench.virtualrig.plant.Friction;
import snagbench.virtualrig.plant.MotorSlide;

/**
 * The lift: a cup that clamps the pot, on a spindle that holds its load without drive. Demo data; it rises at about
 * 280 mm/s at full drive.
 */
final class LiftUnit {
    static final double HIGHEST = 0.36;

    private static final DcMotor MOTOR = new DcMotor(1.2, 0.02, 1e-5);
    private static final double METRES_PER_RADIAN = 0.5e-3;
    private static final double CUP_KILOGRAMS = 1.0;
    private static final double POT_KILOGRAMS = 0.6;
    private static final double GRAVITY = 9.81;
    private static final Friction FRICTION = new Friction(28, 22, 10);

    private static final double LATCH_SECONDS = 0.08;

    private final MotorSlide slide = new MotorSlide(MOTOR, METRES_PER_RADIAN, CUP_KILOGRAMS);
    private double stiffness = 1;
    private double drag;
    private double duty;
    private boolean latching;
    /** 0 for open, 1 for closed. */
    private double latch;

    void reset(double stiffnessOfTheRun) {
        stiffness = stiffnessOfTheRun;
        drag = 0;
        slide.setFriction(FRICTION.times(stiffness));
        slide.setStops(0, HIGHEST);
        slide.place(0);
        load(false);
        latch = 0;
        latching = false;
        off();
    }

    /** Motor shorted. The clamp is held by a spring and stays as it is. */
    void off() {
        duty = 0;
    }

    void drive(double newDuty) {
        duty = newDuty;
    }

    void latch(boolean isToClose) {
        latching = isToClose;
    }

    void load(boolean hasPot) {
        slide.setLoad(-(CUP_KILOGRAMS + (hasPot ? POT_KILOGRAMS : 0)) * GRAVITY);
    }

    /** Friction that many times that of a slide as drawn, in place of the run's own; 0 for the run's own. */
    void drag(double factor) {
        if (factor != drag) {
            drag = factor;
            slide.setFriction(FRICTION.times(factor == 0 ? stiffness : factor));
        }
    }

    void advance(double seconds, Supply supply) {
        double volts = supply.voltsFor(Supply.LIFT);
        double charge = slide.advance(seconds, duty, volts, supply.ohms());
        supply.takes(Supply.LIFT, duty * slide.motorAmperes(duty, volts, supply.ohms()), charge);
        double way = seconds / LATCH_SECONDS;
        latch = latching ? Math.min(1, latch + way) : Math.max(0, latch - way);
    }

    double amperes(Supply supply) {
        return slide.motorAmperes(duty, supply.voltsFor(Supply.LIFT), supply.ohms());
    }

    double position() {
        return slide.position();
    }

    boolean isLatched() {
        return latch >= 1;
    }

    boolean isOpen() {
        return latch <= 0;
    }
}
