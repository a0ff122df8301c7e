package snagbench.fitting;

import snagbench.probe.SafeStop;
import snagbench.wire.StopReason;

/** A lift must not let go of its pot: the safe stop brakes the motor, past the probe, and holds. */
final class LiftStop implements SafeStop {
    private static final int STANDING_TICKS = 10;

    private final Lift lift;
    private int lastHeight;
    private int unmovedTicks;

    LiftStop(Lift lift) {
        this.lift = lift;
    }

    @Override
    public void stop(StopReason reason) {
        lift.motor(0);
        lastHeight = lift.height();
        unmovedTicks = 0;
    }

    @Override
    public boolean isStopped() {
        int height = lift.height();
        unmovedTicks = height == lastHeight ? unmovedTicks + 1 : 0;
        lastHeight = height;
        return unmovedTicks >= STANDING_TICKS;
    }
}
