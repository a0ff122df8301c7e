package snagbench.virtualrig.shuttle.control;

import snagbench.probe.ProbeClock;
import snagbench.probe.SafeStop;
import snagbench.wire.StopReason;

/**
 * The shuttle's safe stop: the reach motor is braked, past the probe and by the encoder as it is. The gripper stays as it
 * is, so that a pot is not dropped.
 */
public final class ShuttleStop implements SafeStop {
    private static final int LONGEST_MICROS = 300_000;

    /** So many ticks in which the encoder has not moved count as standing. */
    private static final int STANDING_TICKS = 4;

    private final ShuttleInputs inputs;
    private final ShuttleOutputs outputs;
    private final ProbeClock clock;
    private int begunMicros;
    private int lastPosition;
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
        outputs.reach(0);
        begunMicros = clock.micros();
        lastPosition = inputs.reachPosition();
        unmovedTicks = 0;
    }

    @Override
    public boolean isStopped() {
        outputs.reach(0);
        int position = inputs.reachPosition();
        unmovedTicks = position == lastPosition ? unmovedTicks + 1 : 0;
        lastPosition = position;
        return unmovedTicks > STANDING_TICKS || clock.micros() - begunMicros >= LONGEST_MICROS;
    }
}
