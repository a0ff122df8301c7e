package snagbench.fitting;

import snagbench.probe.Channel;
import snagbench.probe.ChannelSpec;
import snagbench.probe.Description;
import snagbench.probe.FailSafe;
import snagbench.wire.ChannelKind;

/** What the lift tells of itself. */
final class LiftChannels {
    final Channel step;
    final Channel lift;
    final Channel height;
    final Channel current;
    final Channel motor;
    final FailSafe stuck;
    final Description description;

    LiftChannels() {
        Description.Builder to = Description.builder();
        step = to.channel(ChannelSpec.step("step", "DOWN", "LIFTING", "UP", "STUCK", "STOPPED"));
        lift = to.channel(ChannelSpec.of(ChannelKind.COMMAND, "lift"));
        height = to.channel(ChannelSpec.of(ChannelKind.SENSOR, "lift.height")
                .unit("mm", 1, -1)
                .range(-100, 4200)
                .closesLoop());
        current = to.channel(ChannelSpec.of(ChannelKind.SENSOR, "lift.current")
                .unit("A", 1, -2)
                .range(0, 3000));
        motor = to.channel(ChannelSpec.of(ChannelKind.ACTUATOR, "lift.command")
                .unit("%", 1, -1)
                .range(-1000, 1000));
        stuck = to.failSafe(1, "FS-01");
        description = to.build();
    }
}
