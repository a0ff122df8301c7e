package snagbench.fitting;

/** A pot lift: up at the press of a button; it stops where the motor draws too much for too long. Demo data. */
final class LiftBefore {
    private static final int TOP = 4000;
    private static final int LIMIT = 600;
    private static final int STUCK_MICROS = 80_000;
    private static final int LIFTING_DRIVE = 700;

    private enum Step {
        DOWN,
        LIFTING,
        UP,
        STUCK
    }

    private final Lift lift;
    private Step step = Step.DOWN;
    private int easyMicros;

    LiftBefore(Lift lift) {
        this.lift = lift;
    }

    void pass(int micros) {
        int height = lift.height();
        int current = lift.current();
        boolean pressed = lift.isButtonPressed();
        if (step != Step.LIFTING || current <= LIMIT) {
            easyMicros = micros;
        }
        if (micros - easyMicros >= STUCK_MICROS) {
            step = Step.STUCK;
        } else if (step == Step.DOWN && pressed) {
            step = Step.LIFTING;
        } else if (step == Step.LIFTING && height >= TOP) {
            step = Step.UP;
        }
        lift.motor(step == Step.LIFTING ? LIFTING_DRIVE : 0);
    }
}
