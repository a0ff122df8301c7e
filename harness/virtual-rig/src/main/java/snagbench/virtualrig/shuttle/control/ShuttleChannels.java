package snagbench.virtualrig.shuttle.control;

import snagbench.probe.Channel;
import snagbench.probe.ChannelSpec;
import snagbench.probe.Description;
import snagbench.probe.FailSafe;
import snagbench.wire.ChannelKind;

/** What the shuttle tells of itself, with the handles by which its code reads and reports. The same for every build. */
public final class ShuttleChannels {
    final Channel step;
    final Channel startRun;
    final Channel ready;
    final Channel reachPosition;
    final Channel reachCurrent;
    final Channel reachCommand;
    final Channel gripperBeam;
    final Channel gripperCommand;
    final Channel batteryVoltage;
    final FailSafe currentOverLimit;
    final FailSafe stoppedEarly;
    final FailSafe gripNotThere;
    private final Channel obstaclePosition;
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
        reachCurrent = to.channel(ChannelSpec.of(ChannelKind.SENSOR, "reach.current")
                .unit("A", 1, -2)
                .range(0, 3000));
        reachCommand = to.channel(ChannelSpec.of(ChannelKind.ACTUATOR, "reach.command")
                .unit("%", 1, -1)
                .range(-1000, 1000)
                .mayBeWeakened());
        gripperBeam =
                to.channel(ChannelSpec.of(ChannelKind.SENSOR, "gripper.beam").withValueNames("clear", "broken"));
        gripperCommand = to.channel(
                ChannelSpec.of(ChannelKind.ACTUATOR, "gripper.command").withValueNames("open", "closed"));
        batteryVoltage = to.channel(ChannelSpec.of(ChannelKind.SENSOR, "battery.voltage")
                .unit("V", 1, -2)
                .range(0, 2000));
        obstaclePosition = to.channel(ChannelSpec.of(ChannelKind.DISTURBANCE, "obstacle.position")
                .unit("mm", 1, -1)
                .range(0, 4500));
        currentOverLimit = to.failSafe(1, "FS-01");
        stoppedEarly = to.failSafe(2, "FS-02");
        gripNotThere = to.failSafe(3, "FS-03");
        description = to.build();
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
     * Something in the arm's way, which the bench can ask the rig to make. Not for the control code, which must find out.
     *
     * @return the channel: its place in 0.1 mm, 0 for nothing
     */
    public Channel obstaclePosition() {
        return obstaclePosition;
    }
}
