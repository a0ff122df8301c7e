package snagbench.virtualrig.shuttle.control;

import snagbench.probe.Probe;

/** All actuators: what the sequence wants of them in this tick, driven gently and through the probe. */
final class Axes {
    /** Two motors and the whole weight: gentler than the others. */
    private static final int BASE_GROWTH = 3;

    /** Below it lift and base take no more than they have, so that they do not pull the battery down. In 10 mV. */
    private static final int SAGGING = 820;

    private static final int BASE_CREEP = 100;
    private static final int BASE_SLOPE = 14;
    private static final int BASE_NEAR = 40;
    private static final int LIFT_CREEP = 250;
    private static final int LIFT_SLOPE = 60;
    private static final int LIFT_NEAR = 15;
    private static final int LIFT_FASTEST = 950;

    private static final int STEER_PER_TENTH_DEGREE = 5;
    private static final int MOST_STEER = 160;
    /** In 0.1 degrees; what it takes on the spot wants a creep's drive. */
    private static final int STRAIGHT = 10;

    private final Probe probe;
    private final ShuttleChannels channels;
    private final ShuttleOutputs outputs;
    private final Readings readings;
    private final ReachDrive reach = new ReachDrive();
    private final PlaceDrive lift = new PlaceDrive(ReachDrive.USUAL_GROWTH, LIFT_CREEP, LIFT_SLOPE, LIFT_NEAR);
    private final PlaceDrive base = new PlaceDrive(BASE_GROWTH, BASE_CREEP, BASE_SLOPE, BASE_NEAR);

    private int reachWanted;
    private int reachAsked;
    private int liftWanted;
    private int baseWanted;
    private int steerWanted;
    /** 1 for closed, 0 for open. */
    private int gripper;

    private int latch;

    Axes(Probe probe, ShuttleChannels channels, ShuttleOutputs outputs, Readings readings) {
        this.probe = probe;
        this.channels = channels;
        this.outputs = outputs;
        this.readings = readings;
    }

    /** Nothing is wanted of the motors in this tick unless it is said. */
    void beginTick() {
        reachWanted = 0;
        liftWanted = 0;
        baseWanted = 0;
        steerWanted = 0;
    }

    void off() {
        reach.off();
        lift.off();
        base.off();
    }

    void reach(int drive) {
        reachWanted = drive;
    }

    void reachHome(int fastest) {
        reachWanted = ReachDrive.homewards(readings.position, fastest);
    }

    void lift(int place) {
        liftWanted = lift.towards(place - readings.lift, LIFT_FASTEST, growing());
    }

    void base(int place, int fastest) {
        baseWanted = base.towards(place - readings.base, fastest, growing());
        int steer = -readings.heading * STEER_PER_TENTH_DEGREE;
        if (baseWanted == 0) {
            int size = Math.abs(readings.heading) <= STRAIGHT ? 0 : Math.max(BASE_CREEP, Math.abs(steer));
            steer = readings.heading > 0 ? -size : size;
        }
        steerWanted = Math.max(-MOST_STEER, Math.min(MOST_STEER, steer));
    }

    /** Drives the base with that drive, wherever it is. */
    void baseWith(int drive) {
        baseWanted = base.with(drive, growing());
    }

    /** Time for a drive to grow in: none while the battery sags. */
    private int growing() {
        return readings.voltage < SAGGING ? 0 : readings.elapsedMicros;
    }

    void closeGripper(boolean isToClose) {
        gripper = isToClose ? 1 : 0;
    }

    void closeLatch(boolean isToClose) {
        latch = isToClose ? 1 : 0;
    }

    /** Size of the reach motor's drive as it was asked for last, whatever became of it. */
    int reachEffort() {
        return Math.abs(reachAsked);
    }

    /** Size of the base's drive as it was wanted last. */
    int baseEffort() {
        return Math.max(Math.abs(baseWanted), Math.abs(steerWanted));
    }

    boolean isAt(int liftPlace) {
        return Math.abs(readings.lift - liftPlace) <= Places.LIFT_NEAR;
    }

    boolean isBaseAt(int place) {
        return Math.abs(readings.base - place) <= Places.BASE_NEAR && readings.isBaseSlowerThan(STANDING);
    }

    private static final int STANDING = 15;

    /** Gives everything to the actuators; in a safe stop the motors are the stop's. */
    void drive() {
        // What was not wanted in this tick grows from nothing when it is wanted again.
        if (liftWanted == 0) {
            lift.off();
        }
        if (baseWanted == 0) {
            base.off();
        }
        reachAsked = reach.towards(reachWanted, readings.elapsedMicros);
        int reachDrive = probe.drive(channels.reachCommand, reachAsked);
        int liftDrive = probe.drive(channels.liftCommand, liftWanted);
        int baseDrive = probe.drive(channels.baseCommand, baseWanted);
        int steer = probe.drive(channels.baseSteer, steerWanted);
        if (probe.mayMove()) {
            outputs.reach(reachDrive);
            outputs.lift(liftDrive);
            outputs.base(baseDrive, steer);
        }
        outputs.gripper(probe.drive(channels.gripperCommand, gripper));
        outputs.latch(probe.drive(channels.liftLatch, latch));
    }
}
