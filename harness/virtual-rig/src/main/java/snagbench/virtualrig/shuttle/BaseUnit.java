package snagbench.virtualrig.shuttle;

import snagbench.virtualrig.plant.DcMotor;
import snagbench.virtualrig.plant.Friction;
import snagbench.virtualrig.plant.WheelDrive;

/**
 * The base: a wheel drive on each side, along the aisle from the rack (0) to the shelf, with a measuring wheel on each
 * side. It can be turned a little, and another vehicle can stand in its way or shove it. Demo data.
 */
final class BaseUnit {
    /** Where it stands to set a pot. */
    static final double SHELF_PLACE = 0.36;
    /** From its front to the shelf when it stands at the rack. */
    static final double FRONT_AT_RACK = 0.52;

    private static final double RACK_FOOT = -0.005;
    private static final double SHELF_FOOT = SHELF_PLACE + 0.005;
    /** What its bumper keeps between its sensor and what stands in front. */
    private static final double BUMPER = 0.02;

    private static final DcMotor MOTOR = new DcMotor(0.6, 0.02, 5e-6);
    private static final double METRES_PER_RADIAN = 1.3e-3;
    private static final double KILOGRAMS_PER_SIDE = 7;
    /** Rubber on a smooth floor, 0.8 of the weight (from memory). */
    private static final double GRIP_PER_SIDE = 0.8 * 9.81 * KILOGRAMS_PER_SIDE;

    private static final Friction FRICTION = new Friction(9, 7, 4);
    private static final double TRACK = 0.34;

    private static final double PUSH_SPEED = 0.4;
    /** A shove that is not on the middle turns it: rad for each metre. */
    private static final double TURN_BY_PUSH = 0.5;

    private final WheelDrive left = wheel();
    private final WheelDrive right = wheel();
    private double leftDuty;
    private double rightDuty;

    private double pushed;
    private double pushLeft;
    private double pusherStands = Double.NaN;
    private double visitor;

    private static WheelDrive wheel() {
        return new WheelDrive(MOTOR, METRES_PER_RADIAN, KILOGRAMS_PER_SIDE, GRIP_PER_SIDE);
    }

    void reset(double leftStiffness, double rightStiffness) {
        left.setFriction(FRICTION.times(leftStiffness));
        right.setFriction(FRICTION.times(rightStiffness));
        left.place(0);
        right.place(0);
        pushed = 0;
        pushLeft = 0;
        pusherStands = Double.NaN;
        visitor = 0;
        off();
        setStops();
    }

    void off() {
        leftDuty = 0;
        rightDuty = 0;
    }

    void drive(double forward, double steer) {
        leftDuty = clamp(forward - steer);
        rightDuty = clamp(forward + steer);
    }

    private static double clamp(double duty) {
        return Math.max(-1, Math.min(1, duty));
    }

    /** Another vehicle shoves it that far, above 0 away from the rack, and then stands there; 0 drives it off. */
    void push(double metres) {
        if (metres == pushed) {
            return;
        }
        pushed = metres;
        pushLeft = metres;
        pusherStands = Double.NaN;
        setStops();
    }

    /** Something sticks out so far from the shelf. */
    void visitor(double metres) {
        if (metres != visitor) {
            visitor = metres;
            setStops();
        }
    }

    private void setStops() {
        double lowest = RACK_FOOT;
        double highest = visitor == 0 ? SHELF_FOOT : FRONT_AT_RACK - visitor - BUMPER;
        if (pushed > 0 && !Double.isNaN(pusherStands)) {
            lowest = Math.max(lowest, pusherStands);
        } else if (pushed < 0 && !Double.isNaN(pusherStands)) {
            highest = Math.min(highest, pusherStands);
        }
        left.setStops(lowest, highest);
        right.setStops(lowest, highest);
    }

    void advance(double seconds, Supply supply) {
        if (pushLeft != 0) {
            shove(seconds);
        }
        advance(left, Supply.LEFT_WHEEL, leftDuty, seconds, supply);
        advance(right, Supply.RIGHT_WHEEL, rightDuty, seconds, supply);
    }

    private static void advance(WheelDrive wheel, int motor, double duty, double seconds, Supply supply) {
        double volts = supply.voltsFor(motor);
        double charge = wheel.advance(seconds, duty, volts, supply.ohms());
        supply.takes(motor, duty * wheel.motorAmperes(duty, volts, supply.ohms()), charge);
    }

    private void shove(double seconds) {
        double part = Math.signum(pushLeft) * Math.min(Math.abs(pushLeft), PUSH_SPEED * seconds);
        double room = pushLeft > 0 ? SHELF_FOOT - position() : RACK_FOOT - position();
        if (room * pushLeft <= 0) {
            part = 0;
            pushLeft = 0;
        } else {
            pushLeft = Math.abs(pushLeft) <= PUSH_SPEED * seconds ? 0 : pushLeft - part;
        }
        double turn = TURN_BY_PUSH * part * TRACK / 2;
        left.shove(part - turn);
        right.shove(part + turn);
        pusherStands = position();
        setStops();
    }

    /** Middle of the base, in m from its place at the rack. */
    double position() {
        return (left.position() + right.position()) / 2;
    }

    /** In rad, above 0 to the left. */
    double heading() {
        return (right.position() - left.position()) / TRACK;
    }

    double speed() {
        return (left.speed() + right.speed()) / 2;
    }

    boolean isSpinning() {
        return left.isSpinning() || right.isSpinning();
    }

    /** From the front sensor to what stands before it, in m. */
    double frontDistance() {
        return Math.max(0, FRONT_AT_RACK - visitor - position());
    }
}
