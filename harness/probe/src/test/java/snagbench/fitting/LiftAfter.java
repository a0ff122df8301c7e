package snagbench.fitting;

import snagbench.probe.Probe;

/** The same lift with the probe in its loop. */
final class LiftAfter {
    private static final int TOP = 4000;
    private static final int LIMIT = 600;
    private static final int STUCK_MICROS = 80_000;
    private static final int LIFTING_DRIVE = 700;

    enum Step {
        DOWN(0),
        LIFTING(1),
        UP(2),
        STUCK(3),
        STOPPED(4);

        final int value;

        Step(int value) {
            this.value = value;
        }
    }

    private final Lift lift;
    private final LiftChannels channels;
    private final Probe probe;
    private Step step = Step.DOWN;
    private int easyMicros;

    LiftAfter(Lift lift, LiftChannels channels, Probe probe) {
        this.lift = lift;
        this.channels = channels;
        this.probe = probe;
    }

    void pass() {
        probe.beginTick();
        int micros = probe.tickMicros();
        int height = probe.read(channels.height, lift.height());
        int current = probe.read(channels.current, lift.current());
        boolean pressed = probe.read(channels.lift, lift.isButtonPressed() ? 1 : 0) != 0;
        boolean inhibited = probe.read(channels.stuck.inhibition(), 0) != 0;
        if (step != Step.LIFTING || current <= LIMIT || inhibited) {
            easyMicros = micros;
        }
        if (!probe.mayMove()) {
            step = Step.STOPPED;
        } else if (micros - easyMicros >= STUCK_MICROS) {
            probe.answered(channels.stuck);
            step = Step.STUCK;
        } else if (step == Step.DOWN && pressed) {
            step = Step.LIFTING;
        } else if (step == Step.LIFTING && height >= TOP) {
            step = Step.UP;
        }
        int given = probe.drive(channels.motor, step == Step.LIFTING ? LIFTING_DRIVE : 0);
        if (probe.mayMove()) {
            lift.motor(given); // in a safe stop the motor is the stop's
        }
        probe.report(channels.step, step.value);
        probe.endTick();
    }
}
