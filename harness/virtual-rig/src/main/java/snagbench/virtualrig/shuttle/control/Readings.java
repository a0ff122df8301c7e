package snagbench.virtualrig.shuttle.control;

import snagbench.probe.Probe;

/** What the control code was told in this tick: all sensors, each once, in the same order. */
final class Readings {
    private final Probe probe;
    private final ShuttleChannels channels;
    private final ShuttleInputs inputs;
    private final Speedometer speedometer = new Speedometer();

    /** Start of the tick, in us modulo 2^32. */
    int micros;
    /** From the tick before to this one, in us; 0 in the first. */
    int elapsedMicros;
    /** In 0.1 mm. */
    int position;
    /** In 10 mA. */
    int current;

    boolean beamBroken;

    /** In 10 mV. */
    int voltage;

    private boolean begun;

    Readings(Probe probe, ShuttleChannels channels, ShuttleInputs inputs) {
        this.probe = probe;
        this.channels = channels;
        this.inputs = inputs;
    }

    void take() {
        int now = probe.tickMicros();
        elapsedMicros = begun ? now - micros : 0;
        micros = now;
        begun = true;
        position = probe.read(channels.reachPosition, inputs.reachPosition());
        current = probe.read(channels.reachCurrent, inputs.reachCurrent());
        beamBroken = probe.read(channels.gripperBeam, inputs.gripperBeam()) != 0;
        voltage = probe.read(channels.batteryVoltage, inputs.batteryVoltage());
        speedometer.add(position, micros);
    }

    /** Forgets the movement before this tick. */
    void restart() {
        speedometer.restart(position, micros);
    }

    /** Size of the speed is at least so much, in mm/s; false while it is not known yet. */
    boolean isFasterThan(int millimetresPerSecond) {
        return speedometer.isKnown() && Math.abs(speedometer.speed()) >= millimetresPerSecond * 10;
    }

    /** Size of the speed is below so much, in mm/s; false while it is not known yet. */
    boolean isSlowerThan(int millimetresPerSecond) {
        return speedometer.isKnown() && Math.abs(speedometer.speed()) < millimetresPerSecond * 10;
    }
}
