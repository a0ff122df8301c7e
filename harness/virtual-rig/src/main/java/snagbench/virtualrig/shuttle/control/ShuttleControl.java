package snagbench.virtualrig.shuttle.control;

import java.util.Set;
import snagbench.probe.Channel;
import snagbench.probe.Probe;

/**
 * The shuttle's sequence: four times out to the rack, home with the pot, onto the lift, to the shelf, onto the peg, and
 * back; then it parks. And what is done about each symptom.
 *
 * <p>Between {@link Probe#beginTick} and {@link Probe#endTick} it is called once a tick. It goes by what it is told, and
 * by time on the controller's clock. All that a run remembers begins anew at the command that begins it.
 */
public final class ShuttleControl {
    private static final int POTS = 4;

    private static final int REACH_DRIVE = 800;
    private static final int RUN_UP_DRIVE = 1000;
    private static final int EASED_DRIVE = 600;
    private static final int HOMING_DRIVE = 300;
    /** Folds in without its encoder: gently, and enough for the current to rise well at the inner stop. */
    private static final int BLIND_FOLDING_DRIVE = 400;

    private static final int BASE_DRIVE = 900;
    private static final int BASE_HOMING_DRIVE = 400;
    /** Holds its place no harder than this. */
    private static final int BASE_HOLDING_DRIVE = 300;

    private static final int NUDGE_DRIVE = 600;
    private static final int FREEING_DRIVE = 500;
    private static final int FREEING_BASE_DRIVE = 350;
    private static final int TAKING_UP_DRIVE = -350;

    private static final int EASING_MICROS = 150_000;
    private static final int GRIPPING_MICROS = 200_000;
    private static final int LATCHING_MICROS = 100_000;
    private static final int OPENING_MICROS = 130_000;
    private static final int LOOKING_MICROS = 90_000;
    private static final int SETTING_MICROS = 120_000;
    private static final int NUDGING_MICROS = 250_000;
    private static final int FREEING_MICROS = 450_000;
    private static final int CLEAR_MICROS = 200_000;
    private static final int STANDING_MICROS = 150_000;
    private static final int FOLDING_MICROS = 3_000_000;
    private static final int BLIND_FOLDING_MICROS = 5_000_000;
    /** Nobody may have listened when the controller came up: so often it says anew that it stands still for that. */
    private static final int SAY_AGAIN_MICROS = 500_000;

    private static final int DRIVING_OFF_MICROS = 1_500_000;
    private static final int TAKING_UP_MICROS = 3_000_000;
    private static final int LETTING_GO_MICROS = 6_000_000;
    private static final int MICROS_PER_MILLI = 1000;

    private static final int STANDING_MILLIMETRES_PER_SECOND = 5;
    private static final int BASE_STANDS_BELOW = 10;

    private final Probe probe;
    private final ShuttleChannels channels;
    private final RunRecord record;
    private final Limits limits;
    private final Readings readings;
    private final Axes axes;
    private final Contradictions contradictions;
    private final Symptoms symptoms;
    private final FailSafes failSafes;
    private final Tries tries = new Tries();
    private final Order startRun;
    private final Order ready;
    private final Order park;
    private final Debounce stands = new Debounce();
    private final Debounce clear = new Debounce();

    private Step step = Step.STOPPED;
    private int stepMicros;
    private int runMicros;
    private int phase;
    private int phaseMicros;
    private int fastest;
    private boolean gripperClosed;
    private boolean latchClosed;
    private boolean homing;
    private boolean cameUp;
    private boolean standsAfterRestart;
    private int saidMicros;
    private boolean withPot;
    private boolean potOnLift;
    private boolean isRaised;
    private boolean runUp;
    private boolean folded;
    private int basePlace;
    private int awayPlace;
    private Step easedFrom = Step.REACHING;
    private Step afterAway = Step.COMING_BACK;
    private Variant variant = Variant.NORMAL;
    private int attempted;
    private int set;
    private int skipped;

    /**
     * Just started: stopped, and still until told.
     *
     * @param probe through which everything is read and driven
     * @param channels of this shuttle
     * @param inputs its sensors
     * @param outputs its actuators
     * @param lookedFor the symptoms that this build looks for
     * @param record what was kept over the restart
     */
    public ShuttleControl(
            Probe probe,
            ShuttleChannels channels,
            ShuttleInputs inputs,
            ShuttleOutputs outputs,
            Set<Symptom> lookedFor,
            RunRecord record) {
        this.probe = probe;
        this.channels = channels;
        this.record = record;
        limits = new Limits(probe, channels);
        readings = new Readings(probe, channels, inputs);
        axes = new Axes(probe, channels, outputs, readings);
        contradictions = new Contradictions(readings, limits, axes);
        symptoms = new Symptoms(readings, limits, axes, contradictions);
        failSafes = new FailSafes(probe, channels, symptoms, lookedFor);
        startRun = new Order(channels.startRun);
        ready = new Order(channels.ready);
        park = new Order(channels.park);
    }

    /** One pass of the sequence. */
    public void tick() {
        limits.take();
        readings.take(step.isOfRun() ? (probe.tickMicros() - runMicros) / MICROS_PER_MILLI : 0);
        boolean start = startRun.isGiven();
        boolean home = ready.isGiven();
        boolean parks = park.isGiven();
        boolean staysStillAfterRestart = failSafes.mayAnswer(Symptom.RESTARTED);
        failSafes.mayAnswer(Symptom.TRIES_USED_UP);
        if (!cameUp) {
            cameUp = true;
            comeUp();
        } else if (standsAfterRestart && readings.micros - saidMicros >= SAY_AGAIN_MICROS) {
            sayThatItStands();
        }
        if (!probe.mayMove()) {
            homing = false;
            enter(Step.STOPPED);
        } else if (home) {
            goHome();
        } else if (parks && step.isOfRun()) {
            enter(Step.PARKING);
        } else if (start && step == Step.READY) {
            beginRun();
        }
        proceed();
        drive();
        record.keep(step.isOfRun(), !staysStillAfterRestart);
        probe.report(channels.step, step.value());
        probe.report(channels.variant, variant.value());
        probe.report(channels.potsSet, set);
        probe.report(channels.potsSkipped, skipped);
    }

    /** After a restart in a run: still until told, unless that was inhibited. */
    private void comeUp() {
        if (record.runs() && record.goesOn()) {
            beginRun();
        } else if (record.runs()) {
            standsAfterRestart = true;
            sayThatItStands();
        }
    }

    private void sayThatItStands() {
        saidMicros = readings.micros;
        failSafes.answers(Symptom.RESTARTED);
    }

    private void goHome() {
        restart();
        homing = true;
        enter(Step.STOPPED);
    }

    private void beginRun() {
        restart();
        homing = false;
        runMicros = readings.micros;
        enter(Step.REACHING);
    }

    private void restart() {
        standsAfterRestart = false;
        readings.restart();
        axes.off();
        contradictions.restart();
        failSafes.restart();
        gripperClosed = false;
        latchClosed = false;
        variant = Variant.NORMAL;
        attempted = 0;
        set = 0;
        skipped = 0;
        nextPot();
    }

    private void nextPot() {
        tries.restart();
        withPot = false;
        potOnLift = false;
        runUp = false;
    }

    /** Goes on in the sequence. Every fail-safe looks in every tick; one answers at most. */
    private void proceed() {
        int inStep = readings.micros - stepMicros;
        symptoms.know(variant, withPot, isRaised, basePlace);
        Symptom seen = failSafes.answering(step, inStep, readings.micros);
        if (seen != null) {
            answer(seen);
        } else {
            proceed(inStep);
        }
    }

    private void answer(Symptom symptom) {
        switch (symptom) {
            case TIME_NEARLY_OUT -> enter(Step.PARKING);
            case SENSOR_CONTRADICTS -> degrade(symptoms.without());
            case BASE_OFF_PLACE -> takeUpPlace();
            case SHELF_BLOCKED -> enter(Step.HOLDING);
            case CURRENT_OVER_LIMIT -> {
                easedFrom = step;
                enter(Step.EASING);
            }
            case STOPPED_EARLY, GRIP_NOT_THERE -> {
                runUp = symptom == Symptom.GRIP_NOT_THERE;
                tryAgain(Tries.Of.REACHING, Step.DRAWING_BACK);
            }
            case GRIP_MISSED -> {
                withPot = false;
                gripperClosed = false;
                tryAgain(Tries.Of.REACHING, Step.REACHING);
            }
            case CAUGHT_BEHIND -> tryAgain(Tries.Of.DRAWING_BACK, Step.NUDGING);
            case JAMMED_IN_THROAT -> tryAgain(Tries.Of.DRAWING_BACK, Step.FREEING);
            case HAND_OVER_FAILED -> tryAgain(Tries.Of.HANDING_OVER, Step.HANDING_OVER);
            case TRIES_USED_UP, RESTARTED -> throw new IllegalStateException(symptom + " is not looked for by tick");
        }
    }

    private void tryAgain(Tries.Of what, Step by) {
        if (tries.failed(what, limits.mostTries) && failSafes.answers(Symptom.TRIES_USED_UP)) {
            giveUp();
        } else {
            enter(by);
        }
    }

    private void giveUp() {
        skipped++;
        enter(Step.GIVEN_UP);
    }

    /** Goes on without the sensor that cannot be believed; without the encoder, or without a second beam, it parks. */
    private void degrade(Variant without) {
        boolean isFirst = variant == Variant.NORMAL;
        variant = without;
        if (!isFirst || without == Variant.NO_ENCODER) {
            enter(Step.PARKING);
        }
    }

    /** Off, and back to where it should be. At the rack the arm comes home before. */
    private void takeUpPlace() {
        int away = readings.base;
        Step by = Step.MOVING_AWAY;
        switch (step) {
            case SETTING, TO_SHELF -> {
                away -= Places.AWAY;
                afterAway = Step.TO_SHELF;
            }
            case TO_RACK, COMING_BACK -> {
                away += Places.AWAY;
                afterAway = Step.COMING_BACK;
            }
            default -> {
                away += Places.AWAY;
                afterAway = Step.COMING_BACK;
                by = Step.FOLDING_IN;
            }
        }
        awayPlace = Math.max(Places.RACK, Math.min(Places.SHELF, away));
        tryAgain(Tries.Of.HOLDING_PLACE, by);
    }

    private void proceed(int inStep) {
        switch (step) {
            case STOPPED -> {
                if (homing && isAllHome()) {
                    homing = false;
                    enter(Step.READY);
                }
            }
            case REACHING -> {
                if (isAtPot()) {
                    gripperClosed = true;
                    enter(Step.GRIPPING);
                }
            }
            case EASING -> {
                if (inStep >= EASING_MICROS) {
                    enter(easedFrom);
                    fastest = EASED_DRIVE;
                }
            }
            case GRIPPING -> {
                if (inStep >= GRIPPING_MICROS) {
                    withPot = true;
                    enter(Step.DRAWING_BACK);
                }
            }
            case DRAWING_BACK -> {
                if (ReachDrive.isHome(readings.position)) {
                    enter(withPot ? Step.HANDING_OVER : Step.REACHING);
                }
            }
            case HANDING_OVER -> handOver();
            case TO_SHELF -> {
                if (axes.isBaseAt(Places.SHELF) && axes.isAt(Places.above(attempted))) {
                    enter(Step.SETTING);
                }
            }
            case SETTING -> setDown();
            case TO_RACK -> {
                if (axes.isBaseAt(Places.RACK)) {
                    goOn();
                }
            }
            case HOLDING -> waitForShelf(inStep);
            case NUDGING -> enterAfter(inStep, NUDGING_MICROS, Step.DRAWING_BACK);
            case FREEING -> enterAfter(inStep, FREEING_MICROS, Step.DRAWING_BACK);
            case FOLDING_IN -> {
                if (ReachDrive.isHome(readings.position)) {
                    enter(Step.MOVING_AWAY);
                } else {
                    enterAfter(inStep, FOLDING_MICROS, Step.MOVING_AWAY);
                }
            }
            case MOVING_AWAY -> {
                if (axes.isBaseAt(awayPlace)) {
                    enter(afterAway);
                } else {
                    enterAfter(inStep, DRIVING_OFF_MICROS, afterAway);
                }
            }
            case COMING_BACK -> comeBack(inStep);
            case GIVEN_UP -> letGo(inStep);
            case PARKING -> parkAll(inStep);
            case READY, PARKED -> {
                // Goes on by a command alone.
            }
        }
    }

    private void enterAfter(int inStep, int micros, Step next) {
        if (inStep >= micros) {
            enter(next);
        }
    }

    private boolean isAllHome() {
        return ReachDrive.isHome(readings.position)
                && readings.isSlowerThan(STANDING_MILLIMETRES_PER_SECOND)
                && axes.isAt(Places.LIFT_DOWN)
                && axes.isBaseAt(Places.RACK);
    }

    private boolean isAtPot() {
        if (readings.position < limits.rackZone) {
            return false;
        }
        if (variant == Variant.NO_GRIPPER_BEAM) {
            return stands.hasHeld(
                    readings.isSlowerThan(limits.stoppedBelow) && contradictions.drawsAsIfStanding(),
                    readings.micros,
                    limits.stoppedMicros);
        }
        return readings.beamBroken;
    }

    /** Cup to the bottom, clamp it, open the fingers, rise, look into the throat. */
    private void handOver() {
        int inPhase = readings.micros - phaseMicros;
        switch (phase) {
            case 0 -> {
                latchClosed = false;
                if (axes.isAt(Places.LIFT_DOWN)) {
                    nextPhase();
                }
            }
            case 1 -> {
                latchClosed = true;
                if (inPhase >= LATCHING_MICROS) {
                    gripperClosed = false;
                    nextPhase();
                }
            }
            case 2 -> {
                if (inPhase >= OPENING_MICROS) {
                    nextPhase();
                }
            }
            case 3 -> {
                if (axes.isAt(Places.LIFT_CLEAR)) {
                    isRaised = true;
                    nextPhase();
                }
            }
            default -> {
                if (inPhase >= LOOKING_MICROS) {
                    potOnLift = true;
                    withPot = false;
                    enter(Step.TO_SHELF);
                }
            }
        }
    }

    private void nextPhase() {
        phase++;
        phaseMicros = readings.micros;
    }

    private void setDown() {
        if (phase == 0 && axes.isAt(Places.on(attempted)) && axes.isBaseAt(Places.SHELF)) {
            latchClosed = false;
            nextPhase();
        } else if (phase == 1 && readings.micros - phaseMicros >= SETTING_MICROS) {
            potOnLift = false;
            set++;
            attempted++;
            nextPot();
            enter(Step.TO_RACK);
        }
    }

    /** With the next pot, or home. */
    private void goOn() {
        if (attempted == POTS) {
            enter(Step.PARKING);
        } else if (withPot) {
            enter(Step.HANDING_OVER);
        } else {
            enter(Step.REACHING);
        }
    }

    private void waitForShelf(int inStep) {
        if (clear.hasHeld(!symptoms.isSomethingAtShelf(), readings.micros, CLEAR_MICROS)) {
            enter(Step.TO_SHELF);
        } else if (inStep >= limits.shelfPatienceMicros && failSafes.answers(Symptom.TRIES_USED_UP)) {
            giveUp();
        }
    }

    private void comeBack(int inStep) {
        boolean isStanding = stands.hasHeld(
                readings.isBaseSlowerThan(BASE_STANDS_BELOW) && inStep >= limits.startMicros,
                readings.micros,
                limits.stuckMicros + STANDING_MICROS);
        if (isStanding || inStep >= TAKING_UP_MICROS) {
            readings.standAtRack();
            goOn();
        }
    }

    /** A pot in the throat is gripped, goes out of it and falls; one on the lift falls when the cup opens below. */
    private void letGo(int inStep) {
        int inPhase = readings.micros - phaseMicros;
        if (phase == 0) {
            gripperClosed = withPot;
            latchClosed = potOnLift;
            if (!withPot || inPhase >= GRIPPING_MICROS) {
                nextPhase();
            }
        } else if (phase == 1 && (!withPot || readings.position >= Places.DROP)) {
            gripperClosed = false;
            nextPhase();
        } else if (phase == 2 && (!withPot || inPhase >= OPENING_MICROS)) {
            nextPhase();
        }
        if (potOnLift && axes.isAt(Places.LIFT_DOWN) && axes.isBaseAt(Places.RACK)) {
            potOnLift = false;
            latchClosed = false;
        }
        boolean isDone = phase > 2
                && ReachDrive.isHome(readings.position)
                && axes.isAt(Places.LIFT_DOWN)
                && axes.isBaseAt(Places.RACK)
                && !potOnLift;
        if (isDone || inStep >= LETTING_GO_MICROS) {
            attempted++;
            nextPot();
            goOn();
        }
    }

    private void parkAll(int inStep) {
        boolean isArmIn = variant == Variant.NO_ENCODER
                ? contradictions.drawsAsIfStanding() && inStep >= limits.startMicros
                : ReachDrive.isHome(readings.position);
        folded = folded || isArmIn || inStep >= (variant == Variant.NO_ENCODER ? BLIND_FOLDING_MICROS : FOLDING_MICROS);
        if (folded && axes.isAt(Places.LIFT_DOWN) && axes.isBaseAt(Places.PARK)) {
            enter(Step.PARKED);
        }
    }

    private void enter(Step next) {
        step = next;
        stepMicros = readings.micros;
        phase = 0;
        phaseMicros = readings.micros;
        isRaised = false;
        folded = false;
        stands.restart();
        clear.restart();
        fastest = next == Step.REACHING && runUp ? RUN_UP_DRIVE : REACH_DRIVE;
        basePlace = next == Step.TO_SHELF || next == Step.SETTING ? Places.SHELF : Places.RACK;
    }

    private void drive() {
        axes.beginTick();
        switch (step) {
            case REACHING -> {
                axes.reach(fastest);
                hold(Places.RACK);
            }
            case EASING, GRIPPING -> hold(Places.RACK);
            case DRAWING_BACK -> {
                axes.reachHome(fastest);
                hold(Places.RACK);
            }
            case HANDING_OVER -> {
                axes.lift(phase >= 3 ? Places.LIFT_CLEAR : Places.LIFT_DOWN);
                hold(Places.RACK);
            }
            case TO_SHELF -> {
                int height = Places.above(attempted);
                axes.lift(height);
                axes.base(readings.lift >= height - Places.LIFT_SOON ? Places.SHELF : Places.BEFORE_SHELF, BASE_DRIVE);
            }
            case SETTING -> {
                axes.lift(Places.on(attempted));
                hold(Places.SHELF);
            }
            case TO_RACK -> {
                axes.base(Places.RACK, BASE_DRIVE);
                lowerWhereClear();
            }
            case NUDGING -> {
                axes.reach(NUDGE_DRIVE);
                hold(Places.RACK);
            }
            case FREEING -> {
                axes.reach(FREEING_DRIVE);
                axes.baseWith(FREEING_BASE_DRIVE);
            }
            case FOLDING_IN -> axes.reachHome(fastest);
            case MOVING_AWAY -> axes.base(awayPlace, BASE_DRIVE);
            case COMING_BACK -> axes.baseWith(TAKING_UP_DRIVE);
            case GIVEN_UP -> driveGivenUp();
            case PARKING -> drivePark();
            case STOPPED -> {
                if (homing) {
                    driveHome();
                }
            }
            case READY, HOLDING, PARKED -> {
                // Stands.
            }
        }
        axes.closeGripper(gripperClosed);
        axes.closeLatch(latchClosed);
        axes.drive();
    }

    private void hold(int place) {
        axes.base(place, BASE_HOLDING_DRIVE);
    }

    private void lowerWhereClear() {
        if (readings.base <= Places.CLEAR_OF_SHELF) {
            axes.lift(Places.LIFT_DOWN);
        }
    }

    private void driveGivenUp() {
        if (phase == 1 && withPot) {
            axes.reach(fastest);
        } else if (phase > 2) {
            axes.reachHome(fastest);
        }
        axes.base(Places.RACK, BASE_DRIVE);
        lowerWhereClear();
    }

    private void drivePark() {
        if (folded) {
            axes.base(Places.PARK, BASE_DRIVE);
            lowerWhereClear();
        } else if (variant == Variant.NO_ENCODER) {
            axes.reach(-BLIND_FOLDING_DRIVE);
        } else {
            axes.reachHome(fastest);
        }
    }

    private void driveHome() {
        axes.reachHome(HOMING_DRIVE);
        if (ReachDrive.isHome(readings.position)) {
            axes.base(Places.RACK, BASE_HOMING_DRIVE);
            lowerWhereClear();
        }
    }

    /** A command, given in the tick in which it begins to be told. */
    private final class Order {
        private final Channel channel;
        private boolean before;

        private Order(Channel channel) {
            this.channel = channel;
        }

        private boolean isGiven() {
            boolean now = probe.read(channel, 0) != 0;
            boolean given = now && !before;
            before = now;
            return given;
        }
    }
}
