package snagbench.bench.script.write;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.wire.ChannelKind;
import snagbench.wire.EntryKind;

/** What a rig has to offer to somebody who begins a script. */
public final class Offered {
    private final RigDescription rig;
    private final RigFile file;

    /**
     * For one rig.
     *
     * @param rig what the rig tells of itself
     * @param file what people know of it
     */
    public Offered(RigDescription rig, RigFile file) {
        this.rig = rig;
        this.file = file;
    }

    /**
     * Its fail-safes.
     *
     * @return names in the rig's order
     */
    public List<String> failSafes() {
        return rig.failSafes().stream().map(FailSafeDescription::name).toList();
    }

    /**
     * The steps in which a fault may strike: all but those in which it is brought to ready.
     *
     * @return names in the rig's order
     */
    public List<String> steps() {
        return rig.step().map(ChannelDescription::valueNames).orElse(List.of());
    }

    /**
     * Its sensors.
     *
     * @return names in the rig's order
     */
    public List<String> sensors() {
        return names(Set.of(ChannelKind.SENSOR));
    }

    /**
     * Sensors and disturbances.
     *
     * @return names in the rig's order
     */
    public List<String> channels() {
        return names(Set.of(ChannelKind.SENSOR, ChannelKind.DISTURBANCE));
    }

    private List<String> names(Set<ChannelKind> kinds) {
        return rig.channels().stream()
                .filter(channel -> kinds.contains(channel.kind()))
                .map(ChannelDescription::name)
                .toList();
    }

    /**
     * Faults that its probe can do to a channel, as examples with figures of the channel's range.
     *
     * @param channel a sensor or a disturbance
     * @return at least one, as they are written
     */
    public List<String> faults(ChannelDescription channel) {
        List<String> found = new ArrayList<>();
        if (!channel.valueNames().isEmpty()) {
            channel.valueNames().forEach(name -> found.add("stuck-at " + name));
        } else {
            found.add("stuck-at " + channel.show(middle(channel)));
        }
        if (channel.kind() != ChannelKind.SENSOR) {
            return found;
        }
        add(found, EntryKind.FREEZE, "freeze");
        add(found, EntryKind.DROPOUT, "dropout");
        if (channel.valueNames().isEmpty()) {
            String little = channel.show(Math.max(1, span(channel) / 20));
            add(found, EntryKind.OFFSET, "offset " + little);
            add(found, EntryKind.SCALE, "scale 80 %");
            add(found, EntryKind.SPIKE, "spike " + little + " for 30 ms");
        }
        return found;
    }

    private void add(List<String> found, EntryKind kind, String text) {
        if ((rig.limits().kinds() & 1 << kind.code()) != 0) {
            found.add(text);
        }
    }

    private static int span(ChannelDescription channel) {
        return (int) Math.min(Integer.MAX_VALUE, (long) channel.highest() - channel.lowest());
    }

    private static int middle(ChannelDescription channel) {
        return (int) (((long) channel.highest() + channel.lowest()) / 2);
    }

    /**
     * The command that begins a run: the first one that does not bring the rig to ready.
     *
     * @return the command, empty if there is none
     */
    java.util.Optional<ChannelDescription> start() {
        return rig.channels().stream()
                .filter(channel -> channel.kind() == ChannelKind.COMMAND)
                .filter(channel -> file.ready()
                        .map(RigFile.Ready::command)
                        .filter(channel::equals)
                        .isEmpty())
                .findFirst();
    }
}
