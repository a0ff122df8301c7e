package snagbench.virtualrig.shuttle;

import snagbench.virtualrig.plant.AnalogueInput;
import snagbench.virtualrig.plant.Battery;
import snagbench.virtualrig.plant.DcMotor;
import snagbench.virtualrig.plant.Encoder;
import snagbench.virtualrig.plant.Friction;
import snagbench.virtualrig.plant.MotorSlide;
import snagbench.virtualrig.plant.SplitMix64;
import snagbench.virtualrig.shuttle.control.ShuttleInputs;
import snagbench.virtualrig.shuttle.control.ShuttleOutputs;

/**
 * The shuttle itself: reach arm, gripper, pot in its rack, battery, and what its sensors make of them. All figures are
 * demo data, chosen so that the arm runs out at about 350 mm/s and 1 A at full drive and draws about 8 A when it stalls.
 *
 * <p>The pot's weight does not change the arm's motion: it is small beside the rotor's inertia as felt at the slide.
 *
 * <p>This class is not thread-safe.
 */
final class ShuttlePlant implements ShuttleInputs, ShuttleOutputs {
    private static final double SECONDS_PER_MICRO = 1e-6;
    private static final double METRES_PER_STEP = 1e-4;
    private static final double DRIVE_STEPS = 1000;

    private static final DcMotor MOTOR = new DcMotor(1.45, 0.02, 1e-5);
    private static final double METRES_PER_RADIAN = 0.62e-3;
    private static final double ARM_KILOGRAMS = 1.5;
    private static final Friction FRICTION = new Friction(32, 26, 10);
    private static final double FRICTION_SPREAD = 0.15;

    private static final double INNER_STOP = -0.005;
    private static final double OUTER_STOP = 0.425;
    private static final double BEAM_BREAKS = 0.368;
    private static final double RACK_FACE = 0.392;
    private static final double RACK_SPREAD = 0.002;

    private static final double LOWEST_CHARGE_VOLTS = 12.4;
    private static final double HIGHEST_CHARGE_VOLTS = 12.7;
    private static final double BATTERY_OHMS = 0.08;
    private static final double WORN_BATTERY_OHMS = 2.0;
    /** 0.8 V over 20,000 C, as of a lead battery of 7 A*h down to a fifth (from memory). */
    private static final double VOLTS_PER_COULOMB = 4e-5;

    private static final double ELECTRONICS_AMPERES = 0.35;

    private static final double FINGERS_SECONDS = 0.12;
    private static final double FINGERS_HOLD = 0.9;

    private static final Encoder ENCODER = new Encoder(METRES_PER_STEP);
    private static final AnalogueInput CURRENT = new AnalogueInput(0.01, 0.012, 0, 3000);
    private static final AnalogueInput VOLTAGE = new AnalogueInput(0.01, 0.008, 0, 2000);

    private static final int VARIATION_STREAM = 1;
    private static final int CURRENT_STREAM = 2;
    private static final int VOLTAGE_STREAM = 3;

    private final boolean hasRack;
    private final MotorSlide arm = new MotorSlide(MOTOR, METRES_PER_RADIAN, ARM_KILOGRAMS);
    private final Battery battery;

    private SplitMix64 currentNoise = SplitMix64.stream(0, CURRENT_STREAM);
    private SplitMix64 voltageNoise = SplitMix64.stream(0, VOLTAGE_STREAM);
    private double beamBreaks;
    private double farStop;
    private double obstacle;
    private int obstacleSteps;
    private double duty;
    private boolean closing;
    /** 0 for open, 1 for closed. */
    private double fingers;

    private boolean potHeld;
    private int currentSample;
    private int voltageSample;

    ShuttlePlant(boolean hasRack, boolean hasWornBattery) {
        this.hasRack = hasRack;
        battery = new Battery(hasWornBattery ? WORN_BATTERY_OHMS : BATTERY_OHMS, VOLTS_PER_COULOMB);
        reset(0);
    }

    /** Arm home, pot in the rack, battery rested; friction, rack and charge as the seed has them. */
    void reset(int seed) {
        SplitMix64 variation = SplitMix64.stream(seed, VARIATION_STREAM);
        double stiffness = variation.between(1 - FRICTION_SPREAD, 1 + FRICTION_SPREAD);
        double rackShift = variation.between(-RACK_SPREAD, RACK_SPREAD);
        double charge = variation.between(LOWEST_CHARGE_VOLTS, HIGHEST_CHARGE_VOLTS);
        currentNoise = SplitMix64.stream(seed, CURRENT_STREAM);
        voltageNoise = SplitMix64.stream(seed, VOLTAGE_STREAM);
        arm.setFriction(FRICTION.times(stiffness));
        arm.place(0);
        battery.reset(charge);
        beamBreaks = hasRack ? BEAM_BREAKS + rackShift : Double.POSITIVE_INFINITY;
        farStop = hasRack ? RACK_FACE + rackShift : OUTER_STOP;
        obstacleSteps = 0;
        removeObstacle();
        outputsOff();
        fingers = 0;
        potHeld = false;
        sample();
    }

    /** Motor shorted, fingers opening. */
    void outputsOff() {
        duty = 0;
        closing = false;
    }

    void advance(int micros) {
        double seconds = micros * SECONDS_PER_MICRO;
        double taken = arm.advance(seconds, duty, sourceVolts(), battery.internalOhms());
        battery.draw(taken + ELECTRONICS_AMPERES * seconds);
        moveFingers(seconds);
    }

    private void moveFingers(double seconds) {
        double way = seconds / FINGERS_SECONDS;
        if (closing && fingers < 1) {
            fingers = Math.min(1, fingers + way);
            potHeld = potHeld || (fingers >= FINGERS_HOLD && isPotBetweenFingers());
        } else if (!closing && fingers > 0) {
            fingers = Math.max(0, fingers - way);
            potHeld = potHeld && fingers >= FINGERS_HOLD;
        }
    }

    private boolean isPotBetweenFingers() {
        return potHeld || arm.position() >= beamBreaks;
    }

    /** At the terminals, which are the controller's supply. */
    double supplyVolts() {
        double motor = arm.motorAmperes(duty, sourceVolts(), battery.internalOhms());
        return battery.terminalVolts(ELECTRONICS_AMPERES + duty * motor);
    }

    /** The supply as the motor sees it: the battery behind the electronics' steady current. */
    private double sourceVolts() {
        return battery.terminalVolts(ELECTRONICS_AMPERES);
    }

    /** Takes this tick's readings of the noisy sensors, one draw each, however often they are asked for. */
    void sample() {
        currentSample =
                CURRENT.read(Math.abs(arm.motorAmperes(duty, sourceVolts(), battery.internalOhms())), currentNoise);
        voltageSample = VOLTAGE.read(supplyVolts(), voltageNoise);
    }

    /**
     * Puts something solid in the arm's way, or takes it away. It acts when it changes: nothing is put where the arm is
     * already, or has passed.
     *
     * @param steps its place in 0.1 mm, 0 for nothing
     */
    void putObstacle(int steps) {
        if (steps == obstacleSteps) {
            return;
        }
        obstacleSteps = steps;
        double place = steps * METRES_PER_STEP;
        if (steps == 0 || arm.position() > place) {
            removeObstacle();
        } else {
            obstacle = place;
            arm.setStops(INNER_STOP, Math.min(farStop, obstacle));
        }
    }

    private void removeObstacle() {
        obstacle = Double.POSITIVE_INFINITY;
        arm.setStops(INNER_STOP, farStop);
    }

    @Override
    public int reachPosition() {
        return ENCODER.read(arm.position());
    }

    @Override
    public int reachCurrent() {
        return currentSample;
    }

    @Override
    public int gripperBeam() {
        return isPotBetweenFingers() ? 1 : 0;
    }

    @Override
    public int batteryVoltage() {
        return voltageSample;
    }

    @Override
    public void reach(int drive) {
        duty = drive / DRIVE_STEPS;
    }

    @Override
    public void gripper(int closed) {
        closing = closed != 0;
    }
}
