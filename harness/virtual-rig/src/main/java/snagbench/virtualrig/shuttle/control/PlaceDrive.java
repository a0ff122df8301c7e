package snagbench.virtualrig.shuttle.control;

/** The drive of an axis that goes to places: grows gently, falls as it comes near. In 0.1 %. */
final class PlaceDrive {
    private final ReachDrive ramp;
    private final int creep;
    private final int tenthsPerStep;
    private final int near;

    private static final int TENTHS = 10;

    /**
     * Makes it.
     *
     * @param growthPerMillisecond how gently it grows
     * @param creep enough to overcome stiction
     * @param tenthsPerStep 0.1 of the drive's step for each 0.1 mm still to go
     * @param near so many 0.1 mm off is there
     */
    PlaceDrive(int growthPerMillisecond, int creep, int tenthsPerStep, int near) {
        ramp = new ReachDrive(growthPerMillisecond);
        this.creep = creep;
        this.tenthsPerStep = tenthsPerStep;
        this.near = near;
    }

    int towards(int distance, int fastest, int elapsedMicros) {
        int size = Math.abs(distance) <= near
                ? 0
                : Math.min(fastest, Math.max(creep, Math.abs(distance) * tenthsPerStep / TENTHS));
        return ramp.towards(distance < 0 ? -size : size, elapsedMicros);
    }

    /** With that drive, whatever the place. */
    int with(int drive, int elapsedMicros) {
        return ramp.towards(drive, elapsedMicros);
    }

    void off() {
        ramp.off();
    }
}
