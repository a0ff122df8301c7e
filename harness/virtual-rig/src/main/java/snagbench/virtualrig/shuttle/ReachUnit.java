package snagbench.virtualrig.shuttle;

import snagbench.virtualrig.plant.DcMotor;
import snagbench.virtualrig.plant.Friction;
import snagbench.virtualrig.plant.MotorSlide;

/**
 * The reach arm with its fingers. It goes out towards the rack, and home through the throat. All figures are demo data,
 * chosen so that the arm runs out at about 350 mm/s and 1 A at full drive and draws about 8 A when it stalls.
 *
 * <p>The pot's weight does not change the arm's motion: it is small beside the rotor's inertia as felt at the slide.
 */
final class ReachUnit {
    static final double INNER_STOP = -0.005;
    static final double OUTER_STOP = 0.425;

    private static final DcMotor MOTOR = new DcMotor(1.45, 0.02, 1e-5);
    private static final double METRES_PER_RADIAN = 0.62e-3;
    private static final double ARM_KILOGRAMS = 1.5;
    private static final Friction FRICTION = new Friction(32, 26, 10);

    private static final double FINGERS_SECONDS = 0.12;
    private static final double FINGERS_HOLD = 0.9;

    private final MotorSlide arm = new MotorSlide(MOTOR, METRES_PER_RADIAN, ARM_KILOGRAMS);
    private double stiffness = 1;
    private double drag;
    private double duty;
    private boolean closing;
    /** 0 for open, 1 for closed. */
    private double fingers;

    void reset(double stiffnessOfTheRun) {
        stiffness = stiffnessOfTheRun;
        drag = 0;
        arm.setFriction(FRICTION.times(stiffness));
        arm.place(0);
        fingers = 0;
        off();
    }

    /** Motor shorted, fingers opening. */
    void off() {
        duty = 0;
        closing = false;
    }

    void drive(double newDuty) {
        duty = newDuty;
    }

    void close(boolean isToClose) {
        closing = isToClose;
    }

    /** Friction that many times that of a slide as drawn, in place of the run's own; 0 for the run's own. */
    void drag(double factor) {
        if (factor != drag) {
            drag = factor;
            arm.setFriction(FRICTION.times(factor == 0 ? stiffness : factor));
        }
    }

    void stops(double inner, double outer) {
        arm.setStops(inner, outer);
    }

    void advance(double seconds, Supply supply) {
        double volts = supply.voltsFor(Supply.REACH);
        double charge = arm.advance(seconds, duty, volts, supply.ohms());
        supply.takes(Supply.REACH, duty * arm.motorAmperes(duty, volts, supply.ohms()), charge);
        double way = seconds / FINGERS_SECONDS;
        fingers = closing ? Math.min(1, fingers + way) : Math.max(0, fingers - way);
    }

    double amperes(Supply supply) {
        return arm.motorAmperes(duty, supply.voltsFor(Supply.REACH), supply.ohms());
    }

    double position() {
        return arm.position();
    }

    /** The fingers are so far closed, and closing, that they take hold. */
    boolean takesHold() {
        return closing && fingers >= FINGERS_HOLD;
    }

    /** The fingers are so far open that they hold nothing any more. */
    boolean letsGo() {
        return !closing && fingers < FINGERS_HOLD;
    }
}
