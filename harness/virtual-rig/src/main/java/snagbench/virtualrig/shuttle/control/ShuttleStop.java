package snagbench.virtualrig.shuttle.control;

import snagbench.probe.ProbeClock;
import snagbench.probe.SafeStop;
import snagbench.wire.StopReason;

/**
 * The shuttle's safe stop: all motors are braked, past the probe and by the sensors as they are; the lift's spindle holds
 * its load. Gripper and clamp stay as they are, so that a pot is not dropped.
 */
public final class ShuttleStop implements SafeStop {
    private static final int LONGEST_MICROS = 300_000;

    /** So many ticks in which nothing has moved count as standing. */
    private static final int STANDING_TICKS = 4;

    private final ShuttleInputs inputs;
    private final ShuttleOutputs outputs;
    private final ProbeClock clock;
    private int begunMicros;
    private int lastReach;
    private int lastLift;
    private int lastBase;
    private int unmovedTicks;

    /**
     * Makes it.
     *
     * @param inputs read directly
     * @param outputs driven directly
     * @param clock the controller's
     */
    public ShuttleStop(ShuttleInputs inputs, ShuttleOutputs outputs, ProbeClock clock) {
        this.inputs = inputs;
        this.outputs = outputs;
        this.clock = clock;
    }

    @Override
    public void stop(StopReason reason) {
        brake();
        begunMicros = clock.micros();
        hasMoved();
        unmovedTicks = 0;
    }

    private void brake() {
        outputs.reach(0);
        outputs.lift(0);
        outputs.base(0, 0);
    }

    private boolean hasMoved() {
        int reach = inputs.reachPosition();
        int lift = inputs.liftPosition();
        int base = inputs.basePosition();
        boolean moved = reach != lastReach || lift != lastLift || base != lastBase;
        lastReach = reach;
        lastLift = lift;
        lastBase = base;
        return moved;
    }

    @Override
    public boolean isStopped() {
        brake();
        unmovedTicks = hasMoved() ? 0 : unmovedTicks + 1;
        return unmovedTicks > STANDING_TICKS || clock.micros() - begunMicros >= LONGEST_MICROS;
    }
}
