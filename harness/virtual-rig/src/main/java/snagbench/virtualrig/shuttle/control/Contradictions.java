package snagbench.virtualrig.shuttle.control;

/** Sensors that cannot be right, since the others say otherwise. */
final class Contradictions {
    private static final int BEAM_MICROS = 80_000;
    private static final int ENCODER_MICROS = 300_000;
    /** A free arm cannot break the fingers' beam before it comes near the rack, but may just after it left. In 0.1 mm. */
    private static final int FREE_FROM = 200;

    private static final int FREE_TO = 3000;
    /** Near the ends the drive is throttled and the arm may touch something: current is no witness there. In 0.1 mm. */
    private static final int RUNS_FREE_FROM = 1000;

    /** In 0.1 %. */
    private static final int HARD_DRIVE = 400;
    /** A standing motor draws more than this at that drive. In 10 mA. */
    private static final int STANDING_CURRENT = 250;

    private final Readings readings;
    private final Limits limits;
    private final Axes axes;
    private final Debounce gripper = new Debounce();
    private final Debounce throat = new Debounce();
    private final Debounce encoder = new Debounce();

    Contradictions(Readings readings, Limits limits, Axes axes) {
        this.readings = readings;
        this.limits = limits;
        this.axes = axes;
    }

    /** How to go on without the sensor that contradicts; NORMAL where none does. */
    Variant look(Step step, int inStepMicros, Variant variant) {
        int position = readings.position;
        boolean reaches = step == Step.REACHING && variant == Variant.NORMAL;
        boolean gripperLies = reaches && readings.beamBroken && position >= FREE_FROM && position < FREE_TO;
        boolean throatLies = reaches && readings.throatBroken && position >= limits.throatZone;
        boolean encoderLies = isFreeRun(step)
                && axes.reachEffort() >= HARD_DRIVE
                && readings.isSlowerThan(limits.stoppedBelow)
                && readings.current < STANDING_CURRENT;
        boolean gripperHeld = gripper.hasHeld(gripperLies, readings.micros, BEAM_MICROS);
        boolean throatHeld = throat.hasHeld(throatLies, readings.micros, BEAM_MICROS);
        boolean encoderHeld = encoder.hasHeld(encoderLies, readings.micros, ENCODER_MICROS);
        if (encoderHeld && inStepMicros >= limits.startMicros) {
            return Variant.NO_ENCODER;
        }
        if (gripperHeld) {
            return Variant.NO_GRIPPER_BEAM;
        }
        return throatHeld ? Variant.NO_THROAT_BEAM : Variant.NORMAL;
    }

    /** The arm is where nothing touches it and the drive is not throttled. */
    boolean isFreeRun(Step step) {
        int position = readings.position;
        return (step == Step.REACHING && position >= RUNS_FREE_FROM && position < limits.rackZone)
                || (step == Step.DRAWING_BACK && position >= limits.throatZone && position < limits.rackZone);
    }

    /** The motor draws what one draws that stands. */
    boolean drawsAsIfStanding() {
        return readings.current >= STANDING_CURRENT;
    }

    void restart() {
        gripper.restart();
        throat.restart();
        encoder.restart();
    }
}
