package snagbench.virtualrig.shuttle.control;

import snagbench.probe.FailSafe;
import snagbench.probe.Probe;

/** FS-01: the reach motor draws too much while the arm moves, which pulls the battery down. */
final class CurrentOverLimit implements ShuttleFailSafe {
    private static final int LIMIT = 450;
    private static final int MOVING_MILLIMETRES_PER_SECOND = 30;
    private static final int HELD_MICROS = 60_000;

    private final Probe probe;
    private final FailSafe failSafe;
    private final Readings readings;
    private final Debounce symptom = new Debounce(HELD_MICROS);

    CurrentOverLimit(Probe probe, FailSafe failSafe, Readings readings) {
        this.probe = probe;
        this.failSafe = failSafe;
        this.readings = readings;
    }

    @Override
    public boolean answers(Step step, int inStepMicros) {
        boolean inhibited = probe.read(failSafe.inhibition(), 0) != 0;
        boolean seen = (step == Step.REACHING || step == Step.DRAWING_BACK)
                && readings.current > LIMIT
                && readings.isFasterThan(MOVING_MILLIMETRES_PER_SECOND);
        if (!symptom.hasHeld(seen, readings.micros) || inhibited) {
            return false;
        }
        probe.answered(failSafe);
        return true;
    }

    @Override
    public void restart() {
        symptom.restart();
    }
}
