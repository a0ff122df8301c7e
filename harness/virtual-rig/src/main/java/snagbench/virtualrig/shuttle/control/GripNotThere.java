package snagbench.virtualrig.shuttle.control;

import snagbench.probe.FailSafe;
import snagbench.probe.Probe;

/** FS-03: the arm stands at the rack and there is no pot between the fingers. */
final class GripNotThere implements ShuttleFailSafe {
    private static final int RACK_ZONE = 3300;
    private static final int STOPPED_MILLIMETRES_PER_SECOND = 20;
    private static final int HELD_MICROS = 100_000;

    private final Probe probe;
    private final FailSafe failSafe;
    private final Readings readings;
    private final Debounce symptom = new Debounce(HELD_MICROS);

    GripNotThere(Probe probe, FailSafe failSafe, Readings readings) {
        this.probe = probe;
        this.failSafe = failSafe;
        this.readings = readings;
    }

    @Override
    public boolean answers(Step step, int inStepMicros) {
        boolean inhibited = probe.read(failSafe.inhibition(), 0) != 0;
        boolean seen = step == Step.REACHING
                && readings.position >= RACK_ZONE
                && readings.isSlowerThan(STOPPED_MILLIMETRES_PER_SECOND)
                && !readings.beamBroken;
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
