package snagbench.virtualrig.shuttle.control;

/** The symptoms: what each fail-safe looks for, by what the sensors say and where the sequence is. */
final class Symptoms {
    private static final int BASE_STANDS_BELOW = 15;
    /** In 0.1 %: from here on the base tries to move. */
    private static final int BASE_TRIES = 100;
    /** In 0.1 degrees. */
    private static final int TURNED = 50;
    /** How far the front sensor may disagree with the odometry before it counts, in 0.1 mm. */
    private static final int SHELF_SLACK = 600;

    private static final int REFERENCE_SLACK = 400;
    /** Nearer home than this a gripped pot breaks the throat's beam. In 0.1 mm. */
    private static final int POT_IN_THROAT = 600;

    /** How much sooner it has parked with the arm at home than with the arm out. */
    private static final int ARM_HOME_MILLIS = 800;

    private static final int GRIP_MISSED_MICROS = 40_000;
    private static final int SHELF_BLOCKED_MICROS = 100_000;
    private static final int HAND_OVER_MICROS = 60_000;

    private final Readings readings;
    private final Limits limits;
    private final Axes axes;
    private final Contradictions contradictions;

    private Variant variant = Variant.NORMAL;
    private boolean withPot;
    private boolean isPotRaised;
    private int place;
    private Variant without = Variant.NORMAL;

    Symptoms(Readings readings, Limits limits, Axes axes, Contradictions contradictions) {
        this.readings = readings;
        this.limits = limits;
        this.axes = axes;
        this.contradictions = contradictions;
    }

    /**
     * Takes what the sequence knows in this tick beside its step.
     *
     * @param now how it goes by its sensors
     * @param hasPot a pot was gripped
     * @param hasRaisedPot the lift has risen as far as takes a pot out of the throat
     * @param basePlace where the base must be or is to get, in 0.1 mm
     */
    void know(Variant now, boolean hasPot, boolean hasRaisedPot, int basePlace) {
        variant = now;
        withPot = hasPot;
        isPotRaised = hasRaisedPot;
        place = basePlace;
    }

    /** Which sensor the last look found out, as the way to go on without it. */
    Variant without() {
        return without;
    }

    /** How long a symptom must have been there, in us. */
    int heldMicros(Symptom symptom) {
        return switch (symptom) {
            case CURRENT_OVER_LIMIT -> limits.reachCurrentMicros;
            case STOPPED_EARLY, GRIP_NOT_THERE, CAUGHT_BEHIND, JAMMED_IN_THROAT -> limits.stoppedMicros;
            case GRIP_MISSED -> GRIP_MISSED_MICROS;
            case BASE_OFF_PLACE -> limits.stuckMicros;
            case SHELF_BLOCKED -> SHELF_BLOCKED_MICROS;
            case HAND_OVER_FAILED -> HAND_OVER_MICROS;
            case TRIES_USED_UP, TIME_NEARLY_OUT, SENSOR_CONTRADICTS, RESTARTED -> 0;
        };
    }

    /** The step has lasted long enough for standing still to mean something, where it matters. */
    boolean counts(Symptom symptom, int inStepMicros) {
        return switch (symptom) {
            case STOPPED_EARLY, CAUGHT_BEHIND, JAMMED_IN_THROAT -> inStepMicros >= limits.startMicros;
            default -> true;
        };
    }

    boolean isSeen(Symptom symptom, Step step, int inStepMicros) {
        return switch (symptom) {
            case CURRENT_OVER_LIMIT ->
                (step == Step.REACHING || step == Step.DRAWING_BACK)
                        && readings.current > limits.reachCurrent
                        && readings.isFasterThan(limits.stoppedBelow);
            case STOPPED_EARLY ->
                step == Step.REACHING && readings.position < limits.rackZone && stands() && isBelieved(Step.REACHING);
            case GRIP_NOT_THERE ->
                step == Step.REACHING
                        && variant != Variant.NO_GRIPPER_BEAM
                        && readings.position >= limits.rackZone
                        && stands()
                        && !readings.beamBroken;
            case GRIP_MISSED ->
                step == Step.DRAWING_BACK
                        && withPot
                        && variant != Variant.NO_THROAT_BEAM
                        && readings.position <= POT_IN_THROAT
                        && !readings.throatBroken;
            case CAUGHT_BEHIND ->
                step == Step.DRAWING_BACK
                        && readings.position >= limits.throatZone
                        && stands()
                        && isBelieved(Step.DRAWING_BACK);
            case JAMMED_IN_THROAT ->
                step == Step.DRAWING_BACK
                        && readings.position < limits.throatZone
                        && !ReachDrive.isHome(readings.position)
                        && stands();
            case BASE_OFF_PLACE -> isBaseStuck(step);
            case SHELF_BLOCKED -> step == Step.TO_SHELF && isSomethingAtShelf();
            case HAND_OVER_FAILED ->
                step == Step.HANDING_OVER && isPotRaised && variant != Variant.NO_THROAT_BEAM && readings.throatBroken;
            case TIME_NEARLY_OUT -> step.isOfRun() && step != Step.PARKING && readings.runMillis >= latestParking();
            case SENSOR_CONTRADICTS -> {
                without = contradictions.look(step, inStepMicros, variant);
                yield without != Variant.NORMAL;
            }
            case TRIES_USED_UP, RESTARTED -> false;
        };
    }

    /** Later where the arm is home, since it need not come home then. */
    private int latestParking() {
        return limits.parkBy + (ReachDrive.isHome(readings.position) ? ARM_HOME_MILLIS : 0);
    }

    private boolean stands() {
        return readings.isSlowerThan(limits.stoppedBelow);
    }

    /** Where the arm should run free it only counts as standing if the motor draws what it then must. */
    private boolean isBelieved(Step step) {
        return !contradictions.isFreeRun(step) || contradictions.drawsAsIfStanding();
    }

    /** What the front sensor says does not fit an empty shelf. */
    boolean isSomethingAtShelf() {
        return readings.front < Places.SHELF_FROM_RACK - readings.base - SHELF_SLACK;
    }

    private boolean isBaseStuck(Step step) {
        boolean stands = readings.isBaseSlowerThan(BASE_STANDS_BELOW) && axes.baseEffort() >= BASE_TRIES;
        return switch (step) {
            case REACHING, GRIPPING, DRAWING_BACK, EASING, HANDING_OVER, SETTING, TO_SHELF, TO_RACK ->
                stands && (Math.abs(readings.base - place) > limits.offPlace || Math.abs(readings.heading) > TURNED);
            case COMING_BACK ->
                stands && Math.abs(Places.SHELF_FROM_RACK - readings.front - Places.RACK) > REFERENCE_SLACK;
            default -> false;
        };
    }
}
