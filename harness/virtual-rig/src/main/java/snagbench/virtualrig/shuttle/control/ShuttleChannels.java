package snagbench.virtualrig.shuttle.control;

import java.util.EnumMap;
import java.util.Map;
import snagbench.probe.Channel;
import snagbench.probe.ChannelSpec;
import snagbench.probe.Description;
import snagbench.probe.FailSafe;
import snagbench.wire.ChannelKind;

/** What the shuttle tells of itself, with the handles by which its code reads and reports. The same for every build. */
public final class ShuttleChannels {
    private static final int LONGEST_MILLIS = 60_000;

    final Channel step;
    final Channel startRun;
    final Channel ready;
    final Channel park;
    final Channel reachPosition;
    final Channel reachCurrent;
    final Channel reachCommand;
    final Channel gripperBeam;
    final Channel gripperCommand;
    final Channel batteryVoltage;
    final Channel throatBeam;
    final Channel liftPosition;
    final Channel liftCurrent;
    final Channel liftCommand;
    final Channel liftLatch;
    final Channel basePosition;
    final Channel baseHeading;
    final Channel baseCommand;
    final Channel baseSteer;
    final Channel frontDistance;
    final Channel runTime;
    final Channel variant;
    final Channel potsSet;
    final Channel potsSkipped;

    final Constant reachCurrentLimit;
    final Constant reachCurrentTime;
    final Constant reachStoppedBelow;
    final Constant reachStoppedTime;
    final Constant reachStartTime;
    final Constant rackZone;
    final Constant throatZone;
    final Constant mostTries;
    final Constant shelfPatience;
    final Constant baseOffPlace;
    final Constant baseStuckTime;
    final Constant parkBy;

    private final DisturbanceChannels disturbances;
    private final Map<Symptom, FailSafe> failSafes = new EnumMap<>(Symptom.class);
    private final Description description;

    /** Declares them. */
    public ShuttleChannels() {
        Description.Builder to = Description.builder();
        step = to.channel(ChannelSpec.step("step", Step.names()));
        startRun = to.channel(ChannelSpec.of(ChannelKind.COMMAND, "start-run"));
        ready = to.channel(ChannelSpec.of(ChannelKind.COMMAND, "ready"));
        reachPosition = to.channel(ChannelSpec.of(ChannelKind.SENSOR, "reach.position")
                .unit("mm", 1, -1)
                .range(-200, 4500)
                .closesLoop());
        reachCurrent = to.channel(current("reach.current"));
        reachCommand = to.channel(drive("reach.command").mayBeWeakened());
        gripperBeam = to.channel(beam("gripper.beam"));
        gripperCommand = to.channel(
                ChannelSpec.of(ChannelKind.ACTUATOR, "gripper.command").withValueNames("open", "closed"));
        batteryVoltage = to.channel(ChannelSpec.of(ChannelKind.SENSOR, "battery.voltage")
                .unit("V", 1, -2)
                .range(0, 2000));
        Channel obstacle = to.channel(ChannelSpec.of(ChannelKind.DISTURBANCE, "obstacle.position")
                .unit("mm", 1, -1)
                .range(0, 4500));
        park = to.channel(ChannelSpec.of(ChannelKind.COMMAND, "park"));
        throatBeam = to.channel(beam("throat.beam"));
        liftPosition = to.channel(ChannelSpec.of(ChannelKind.SENSOR, "lift.position")
                .unit("mm", 1, -1)
                .range(-200, 4000)
                .closesLoop());
        liftCurrent = to.channel(current("lift.current"));
        // Its spindle holds the load without drive, so that a weakened drive drops nothing.
        liftCommand = to.channel(drive("lift.command").mayBeWeakened());
        liftLatch =
                to.channel(ChannelSpec.of(ChannelKind.ACTUATOR, "lift.latch").withValueNames("open", "closed"));
        basePosition = to.channel(ChannelSpec.of(ChannelKind.SENSOR, "base.position")
                .unit("mm", 1, -1)
                .range(-2000, 8000)
                .closesLoop());
        baseHeading = to.channel(ChannelSpec.of(ChannelKind.SENSOR, "base.heading")
                .unit("deg", 1, -1)
                .range(-900, 900)
                .closesLoop());
        baseCommand = to.channel(drive("base.command").mayBeWeakened());
        baseSteer = to.channel(drive("base.steer").mayBeWeakened());
        frontDistance = to.channel(ChannelSpec.of(ChannelKind.SENSOR, "front.distance")
                .unit("mm", 1, -1)
                .range(0, 20_000)
                .absent(20_000));
        runTime = to.channel(
                ChannelSpec.of(ChannelKind.SENSOR, "run.time").unit("s", 1, -3).range(0, LONGEST_MILLIS));
        variant = to.channel(ChannelSpec.state("variant", Variant.names()));
        potsSet = to.channel(ChannelSpec.of(ChannelKind.COUNTER, "pots.set").range(0, 4));
        potsSkipped =
                to.channel(ChannelSpec.of(ChannelKind.COUNTER, "pots.skipped").range(0, 4));

        reachCurrentLimit = constant(to, constant("reach.current-limit").unit("A", 1, -2), 0, 3000, 450);
        reachCurrentTime = millis(to, "reach.current-time", 60);
        reachStoppedBelow = constant(to, constant("reach.stopped-below").unit("mm/s", 1, 0), 0, 400, 20);
        reachStoppedTime = millis(to, "reach.stopped-time", 100);
        reachStartTime = millis(to, "reach.start-time", 250);
        rackZone = constant(to, constant("rack.zone").unit("mm", 1, -1), 0, 4500, 3300);
        throatZone = constant(to, constant("throat.zone").unit("mm", 1, -1), 0, 4500, 1500);
        mostTries = constant(to, constant("most-tries"), 1, 9, 3);
        shelfPatience = millis(to, "shelf.patience", 3000);
        baseOffPlace = constant(to, constant("base.off-place").unit("mm", 1, -1), 0, 4000, 300);
        baseStuckTime = millis(to, "base.stuck-time", 400);
        parkBy = constant(to, constant("park-by").unit("s", 1, -3), 0, LONGEST_MILLIS, 27_200);

        disturbances = new DisturbanceChannels(to, obstacle);
        for (Symptom symptom : Symptom.values()) {
            failSafes.put(symptom, to.failSafe(symptom.number(), symptom.failSafe()));
        }
        description = to.build();
    }

    private static ChannelSpec beam(String name) {
        return ChannelSpec.of(ChannelKind.SENSOR, name).withValueNames("clear", "broken");
    }

    private static ChannelSpec current(String name) {
        return ChannelSpec.of(ChannelKind.SENSOR, name).unit("A", 1, -2).range(0, 3000);
    }

    private static ChannelSpec drive(String name) {
        return ChannelSpec.of(ChannelKind.ACTUATOR, name).unit("%", 1, -1).range(-1000, 1000);
    }

    private static ChannelSpec constant(String name) {
        return ChannelSpec.of(ChannelKind.CONSTANT, name);
    }

    private static Constant millis(Description.Builder to, String name, int value) {
        return constant(to, constant(name).unit("ms", 1, 0), 0, LONGEST_MILLIS, value);
    }

    private static Constant constant(Description.Builder to, ChannelSpec spec, int least, int most, int value) {
        return new Constant(to.channel(spec.range(least, most).absent(value)), value);
    }

    /**
     * For the probe.
     *
     * @return the description
     */
    public Description description() {
        return description;
    }

    /**
     * What the bench can ask the rig to do to itself. Not for the control code, which must find out.
     *
     * @return the channels
     */
    public DisturbanceChannels disturbances() {
        return disturbances;
    }

    FailSafe failSafe(Symptom symptom) {
        FailSafe failSafe = failSafes.get(symptom);
        if (failSafe == null) {
            throw new IllegalArgumentException("no fail-safe for " + symptom);
        }
        return failSafe;
    }
}
