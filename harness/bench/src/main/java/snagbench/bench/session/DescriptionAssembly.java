package snagbench.bench.session;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.wire.ChannelKind;
import snagbench.wire.Hello;
import snagbench.wire.Item;

/** Puts a rig's description together from its items. */
final class DescriptionAssembly {
    private final List<ChannelDescription> channels = new ArrayList<>();
    private final List<FailSafeDescription> failSafes = new ArrayList<>();

    void add(Item item) throws SessionException {
        switch (item.kind) {
            case CHANNEL -> {
                ChannelKind kind = ChannelKind.of(item.figure(0));
                if (kind == null) {
                    throw new SessionException(
                            SessionException.Reason.REFUSED,
                            "channel \"" + item.text(0) + "\" of the rig is of kind " + item.figure(0)
                                    + ", which this version does not know; a newer harness may");
                }
                channels.add(new ChannelDescription(
                        channels.size(), item.text(0), kind, item.text(1), 1, 0, 0, 1, 0, item.figure(1), List.of()));
            }
            case RANGE -> {
                ChannelDescription last = last();
                replaceLast(new ChannelDescription(
                        last.index(),
                        last.name(),
                        last.kind(),
                        last.unit(),
                        item.figure(0),
                        item.figure(1),
                        item.figure(2),
                        item.figure(3),
                        item.figure(4),
                        last.flags(),
                        last.valueNames()));
            }
            case VALUE_NAME -> {
                ChannelDescription last = last();
                List<String> names = new ArrayList<>(last.valueNames());
                names.add(item.text(0));
                replaceLast(new ChannelDescription(
                        last.index(),
                        last.name(),
                        last.kind(),
                        last.unit(),
                        last.stepMultiplier(),
                        last.stepExponent(),
                        last.lowest(),
                        last.highest(),
                        last.absent(),
                        last.flags(),
                        names));
            }
            case FAIL_SAFE ->
                failSafes.add(new FailSafeDescription(
                        item.figure(0),
                        item.text(0),
                        item.figure(1) < 0 ? OptionalInt.empty() : OptionalInt.of(item.figure(1))));
        }
    }

    private ChannelDescription last() throws SessionException {
        if (channels.isEmpty()) {
            throw new SessionException(
                    SessionException.Reason.REFUSED,
                    "the rig's description starts with something other than a channel");
        }
        return channels.get(channels.size() - 1);
    }

    private void replaceLast(ChannelDescription channel) {
        channels.set(channels.size() - 1, channel);
    }

    RigDescription description(Hello hello) {
        return new RigDescription(hello.digest, channels, failSafes, capacity(hello));
    }

    static ProbeCapacity capacity(Hello hello) {
        return new ProbeCapacity(
                hello.real != 0,
                hello.tickMicros,
                hello.slots,
                hello.terms,
                hello.points,
                hello.guards,
                hello.frame,
                hello.kinds);
    }
}
