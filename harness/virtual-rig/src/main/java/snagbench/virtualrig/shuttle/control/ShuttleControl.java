package snagbench.virtualrig.shuttle.control;

import java.util.Set;
import snagbench.probe.Channel;
import snagbench.probe.Probe;

/**
 * The shuttle's sequence: out to the rack, grip the pot, home with it; and what is done about each symptom.
 *
 * <p>Between {@link Probe#beginTick} and {@link Probe#endTick} it is called once a tick. It goes by what it is told, and
 * by time on the controller's clock. All that a run remembers begins anew at the command that begins it.
 */
public final class ShuttleControl {
    private static final int REACH_DRIVE = 800;
    private static final int RUN_UP_DRIVE = 1000;
    private static final int EASED_DRIVE = 600;
    private static final int HOMING_DRIVE = 300;
    private static final int EASING_MICROS = 150_000;
    private static final int GRIPPING_MICROS = 200_000;
    private static final int STANDING_MILLIMETRES_PER_SECOND = 5;
    private static final int MOST_TRIES = 3;
    private static final int OPEN = 0;
    private static final int CLOSED = 1;

    private final Probe probe;
    private final ShuttleChannels channels;
    private final ShuttleOutputs outputs;
    private final Readings readings;
    private final ReachDrive drive = new ReachDrive();
    private final Order startRun;
    private final Order ready;
    private final ShuttleFailSafe currentOverLimit;
    private final ShuttleFailSafe stoppedEarly;
    private final ShuttleFailSafe gripNotThere;

    private Step step = Step.STOPPED;
    private int stepMicros;
    private int fastest;
    private int gripper = OPEN;
    private boolean homing;
    private boolean withPot;
    private boolean runUp;
    private int tries;
    private Step easedFrom = Step.REACHING;

    /**
     * Just started: stopped, and still until told.
     *
     * @param probe through which everything is read and driven
     * @param channels of this shuttle
     * @param inputs its sensors
     * @param outputs its actuators
     * @param lookedFor the symptoms that this build looks for
     */
    public ShuttleControl(
            Probe probe,
            ShuttleChannels channels,
            ShuttleInputs inputs,
            ShuttleOutputs outputs,
            Set<Symptom> lookedFor) {
        this.probe = probe;
        this.channels = channels;
        this.outputs = outputs;
        readings = new Readings(probe, channels, inputs);
        startRun = new Order(channels.startRun);
        ready = new Order(channels.ready);
        currentOverLimit = lookedFor.contains(Symptom.CURRENT_OVER_LIMIT)
                ? new CurrentOverLimit(probe, channels.currentOverLimit, readings)
                : ShuttleFailSafe.NONE;
        stoppedEarly = lookedFor.contains(Symptom.STOPPED_EARLY)
                ? new StoppedEarly(probe, channels.stoppedEarly, readings)
                : ShuttleFailSafe.NONE;
        gripNotThere = lookedFor.contains(Symptom.GRIP_NOT_THERE)
                ? new GripNotThere(probe, channels.gripNotThere, readings)
                : ShuttleFailSafe.NONE;
    }

    /** One pass of the sequence. */
    public void tick() {
        readings.take();
        boolean start = startRun.isGiven();
        boolean home = ready.isGiven();
        if (!probe.mayMove()) {
            homing = false;
            enter(Step.STOPPED);
        } else if (home) {
            goHome();
        } else if (start && step == Step.READY) {
            beginRun();
        }
        proceed();
        drive();
        probe.report(channels.step, step.value());
    }

    private void goHome() {
        restart();
        gripper = OPEN;
        homing = true;
        enter(Step.STOPPED);
    }

    private void beginRun() {
        restart();
        homing = false;
        gripper = OPEN;
        tries = 1;
        enter(Step.REACHING);
    }

    private void restart() {
        readings.restart();
        drive.off();
        currentOverLimit.restart();
        stoppedEarly.restart();
        gripNotThere.restart();
        withPot = false;
        runUp = false;
        tries = 0;
    }

    /** Goes on in the sequence. Every fail-safe looks in every tick; no two symptoms can be there at once. */
    private void proceed() {
        int inStep = readings.micros - stepMicros;
        boolean drawsTooMuch = currentOverLimit.answers(step, inStep);
        boolean isBlocked = stoppedEarly.answers(step, inStep);
        boolean foundNothing = gripNotThere.answers(step, inStep);
        if (drawsTooMuch) {
            easedFrom = step;
            enter(Step.EASING);
        } else if (isBlocked || foundNothing) {
            runUp = foundNothing;
            tryAgain();
        } else {
            proceed(inStep);
        }
    }

    private void proceed(int inStep) {
        switch (step) {
            case STOPPED -> {
                if (homing
                        && ReachDrive.isHome(readings.position)
                        && readings.isSlowerThan(STANDING_MILLIMETRES_PER_SECOND)) {
                    homing = false;
                    enter(Step.READY);
                }
            }
            case REACHING -> {
                if (readings.beamBroken) {
                    gripper = CLOSED;
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
                    enter(withPot ? Step.HOLDING : Step.REACHING);
                }
            }
            case READY, HOLDING, GIVEN_UP -> {
                // Goes on by a command alone.
            }
        }
    }

    private void tryAgain() {
        if (tries == MOST_TRIES) {
            enter(Step.GIVEN_UP);
        } else {
            tries++;
            enter(Step.DRAWING_BACK);
        }
    }

    private void enter(Step next) {
        step = next;
        stepMicros = readings.micros;
        fastest = next == Step.REACHING && runUp ? RUN_UP_DRIVE : REACH_DRIVE;
    }

    private void drive() {
        int wanted = drive.towards(wantedDrive(), readings.elapsedMicros);
        int given = probe.drive(channels.reachCommand, wanted);
        // In a safe stop the motor is the stop's.
        if (probe.mayMove()) {
            outputs.reach(given);
        }
        outputs.gripper(probe.drive(channels.gripperCommand, gripper));
    }

    private int wantedDrive() {
        return switch (step) {
            case REACHING -> fastest;
            case DRAWING_BACK, GIVEN_UP -> ReachDrive.homewards(readings.position, fastest);
            case STOPPED -> homing ? ReachDrive.homewards(readings.position, HOMING_DRIVE) : 0;
            case READY, EASING, GRIPPING, HOLDING -> 0;
        };
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
