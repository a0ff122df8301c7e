package snagbench.virtualrig.shuttle.control;

import snagbench.probe.Probe;

/** What the control code was told in this tick: all sensors, each once, in the same order. */
final class Readings {
    private static final int TENTHS = 10;

    private final Probe probe;
    private final ShuttleChannels channels;
    private final ShuttleInputs inputs;
    private final Speedometer reachSpeed = new Speedometer();
    private final Speedometer baseSpeed = new Speedometer();

    /** Start of the tick, in us modulo 2^32. */
    int micros;
    /** From the tick before to this one, in us; 0 in the first. */
    int elapsedMicros;
    /** Of the arm, in 0.1 mm. */
    int position;
    /** Of the reach motor, in 10 mA. */
    int current;

    boolean beamBroken;
    boolean throatBroken;
    /** Of the lift, in 0.1 mm. */
    int lift;
    /** Of the lift motor, in 10 mA. */
    int liftCurrent;
    /** Of the base, in 0.1 mm from its place at the rack, as corrected by {@link #standAtRack}. */
    int base;
    /** In 0.1 degrees, as corrected. */
    int heading;
    /** In 0.1 mm. */
    int front;

    /** In 10 mV. */
    int voltage;
    /** Of the run, in ms. */
    int runMillis;

    private int baseZero;
    private int headingZero;
    private boolean begun;

    Readings(Probe probe, ShuttleChannels channels, ShuttleInputs inputs) {
        this.probe = probe;
        this.channels = channels;
        this.inputs = inputs;
    }

    void take(int millisOfRun) {
        int now = probe.tickMicros();
        elapsedMicros = begun ? now - micros : 0;
        micros = now;
        begun = true;
        position = probe.read(channels.reachPosition, inputs.reachPosition());
        current = probe.read(channels.reachCurrent, inputs.reachCurrent());
        beamBroken = probe.read(channels.gripperBeam, inputs.gripperBeam()) != 0;
        throatBroken = probe.read(channels.throatBeam, inputs.throatBeam()) != 0;
        lift = probe.read(channels.liftPosition, inputs.liftPosition());
        liftCurrent = probe.read(channels.liftCurrent, inputs.liftCurrent());
        base = probe.read(channels.basePosition, inputs.basePosition()) - baseZero;
        heading = probe.read(channels.baseHeading, inputs.baseHeading()) - headingZero;
        front = probe.read(channels.frontDistance, inputs.frontDistance());
        voltage = probe.read(channels.batteryVoltage, inputs.batteryVoltage());
        runMillis = probe.read(channels.runTime, millisOfRun);
        reachSpeed.add(position, micros);
        baseSpeed.add(base, micros);
    }

    /** Forgets the movement before this tick, and every correction. */
    void restart() {
        base += baseZero;
        heading += headingZero;
        baseZero = 0;
        headingZero = 0;
        reachSpeed.restart(position, micros);
        baseSpeed.restart(base, micros);
    }

    /** Takes where the base is now for its place at the rack, straight. */
    void standAtRack() {
        baseZero += base;
        headingZero += heading;
        base = 0;
        heading = 0;
        baseSpeed.restart(0, micros);
    }

    /** Size of the arm's speed is at least so much, in mm/s; false while it is not known yet. */
    boolean isFasterThan(int millimetresPerSecond) {
        return reachSpeed.isKnown() && Math.abs(reachSpeed.speed()) >= millimetresPerSecond * TENTHS;
    }

    /** Size of the arm's speed is below so much, in mm/s; false while it is not known yet. */
    boolean isSlowerThan(int millimetresPerSecond) {
        return reachSpeed.isKnown() && Math.abs(reachSpeed.speed()) < millimetresPerSecond * TENTHS;
    }

    /** Size of the base's speed is below so much, in mm/s; false while it is not known yet. */
    boolean isBaseSlowerThan(int millimetresPerSecond) {
        return baseSpeed.isKnown() && Math.abs(baseSpeed.speed()) < millimetresPerSecond * TENTHS;
    }
}
