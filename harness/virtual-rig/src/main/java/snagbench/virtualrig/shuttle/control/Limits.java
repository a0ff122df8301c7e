package snagbench.virtualrig.shuttle.control;

import snagbench.probe.Probe;

/** The adjustable constants, as they are in this tick. */
final class Limits {
    private static final int MICROS_PER_MILLI = 1000;

    private final Probe probe;
    private final ShuttleChannels channels;

    /** In 10 mA. */
    int reachCurrent;

    int reachCurrentMicros;
    /** In mm/s. */
    int stoppedBelow;

    int stoppedMicros;
    int startMicros;
    /** From here on outwards the arm is at the rack, in 0.1 mm. */
    int rackZone;
    /** From here on inwards a pot is in the throat, in 0.1 mm. */
    int throatZone;

    int mostTries;
    int shelfPatienceMicros;
    /** In 0.1 mm. */
    int offPlace;

    int stuckMicros;
    /** In ms of the run. */
    int parkBy;

    Limits(Probe probe, ShuttleChannels channels) {
        this.probe = probe;
        this.channels = channels;
    }

    void take() {
        reachCurrent = channels.reachCurrentLimit.read(probe);
        reachCurrentMicros = micros(channels.reachCurrentTime);
        stoppedBelow = channels.reachStoppedBelow.read(probe);
        stoppedMicros = micros(channels.reachStoppedTime);
        startMicros = micros(channels.reachStartTime);
        rackZone = channels.rackZone.read(probe);
        throatZone = channels.throatZone.read(probe);
        mostTries = channels.mostTries.read(probe);
        shelfPatienceMicros = micros(channels.shelfPatience);
        offPlace = channels.baseOffPlace.read(probe);
        stuckMicros = micros(channels.baseStuckTime);
        parkBy = channels.parkBy.read(probe);
    }

    private int micros(Constant millis) {
        return millis.read(probe) * MICROS_PER_MILLI;
    }
}
