package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.wire.ChannelKind;
import snagbench.wire.Item;

/** The seedling shuttle's description, and variants of it, for tests that want no rig. */
final class ShuttleDescription {
    static final ProbeCapacity ROOMY = roomFor(32, 128, 8);

    private final List<ChannelDescription> channels = new ArrayList<>();

    private ShuttleDescription() {}

    static ProbeCapacity roomFor(int slots, int terms, int guards) {
        return new ProbeCapacity(false, 0, slots, terms, 256, guards, 256, 0b111_1111_1111, 1000);
    }

    static RigDescription virtual() {
        return with(ROOMY);
    }

    static RigDescription real() {
        return with(new ProbeCapacity(true, 5000, 32, 128, 256, 8, 256, 0b111_1111_1111, 1000));
    }

    static RigDescription with(ProbeCapacity limits) {
        ShuttleDescription shuttle = new ShuttleDescription();
        shuttle.add("failsafe.last", ChannelKind.STATE, 0, 255);
        shuttle.add("failsafe.count", ChannelKind.COUNTER, 0, Integer.MAX_VALUE);
        shuttle.add(
                "step",
                ChannelKind.STATE,
                "",
                0,
                0,
                7,
                Item.STEP,
                "STOPPED",
                "READY",
                "REACHING",
                "EASING",
                "DRAWING_BACK",
                "GRIPPING",
                "HOLDING",
                "GIVEN_UP");
        shuttle.add("start-run", ChannelKind.COMMAND, 0, 1);
        shuttle.add("ready", ChannelKind.COMMAND, 0, 1);
        shuttle.add("reach.position", ChannelKind.SENSOR, "mm", -1, -200, 4500, Item.CLOSES_LOOP);
        shuttle.add("reach.current", ChannelKind.SENSOR, "A", -2, 0, 3000, 0);
        shuttle.add("reach.command", ChannelKind.ACTUATOR, "%", -1, -1000, 1000, Item.MAY_BE_WEAKENED);
        shuttle.add("gripper.beam", ChannelKind.SENSOR, "", 0, 0, 1, 0, "clear", "broken");
        shuttle.add("gripper.command", ChannelKind.ACTUATOR, "", 0, 0, 1, 0, "open", "closed");
        shuttle.add("battery.voltage", ChannelKind.SENSOR, "V", -2, 0, 2000, 0);
        shuttle.add("obstacle.position", ChannelKind.DISTURBANCE, "mm", -1, 0, 4500, 0);
        List<FailSafeDescription> failSafes = new ArrayList<>();
        for (int number = 1; number <= 3; number++) {
            String name = "FS-0" + number;
            failSafes.add(new FailSafeDescription(number, name, OptionalInt.of(shuttle.channels.size())));
            shuttle.add("inhibit " + name, ChannelKind.INHIBITION, 0, 1);
        }
        return new RigDescription(0x1234ABCD, shuttle.channels, failSafes, limits);
    }

    private void add(String name, ChannelKind kind, int lowest, int highest) {
        add(name, kind, "", 0, lowest, highest, 0);
    }

    private void add(
            String name,
            ChannelKind kind,
            String unit,
            int exponent,
            int lowest,
            int highest,
            int flags,
            String... names) {
        int absent = Math.max(lowest, Math.min(highest, 0));
        channels.add(new ChannelDescription(
                channels.size(), name, kind, unit, 1, exponent, lowest, highest, absent, flags, List.of(names)));
    }
}
