package snagbench.bench.script;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.zip.CRC32;
import snagbench.wire.CborWriter;
import snagbench.wire.ChannelKind;
import snagbench.wire.Hello;
import snagbench.wire.Item;
import snagbench.wire.ItemKind;
import snagbench.wire.Wire;

/** A rig's description as the wire's own messages, both ways: a greeting, then its items. */
public final class DescriptionItems {
    /** Longer than any that a rig can send: what people write into a file may be longer. */
    private static final int LONGEST_ITEM = 4096;

    private DescriptionItems() {}

    /**
     * The items of a description, in the order in which a rig tells them.
     *
     * @param rig the description
     * @return items of session 0 and number 0
     */
    public static List<Item> of(RigDescription rig) {
        List<Item> items = new ArrayList<>();
        for (ChannelDescription channel : rig.channels()) {
            add(
                    items,
                    ItemKind.CHANNEL,
                    new int[] {channel.kind().code(), channel.flags()},
                    channel.name(),
                    channel.unit());
            add(items, ItemKind.RANGE, new int[] {
                channel.stepMultiplier(), channel.stepExponent(), channel.lowest(), channel.highest(), channel.absent()
            });
            for (int value = 0; value < channel.valueNames().size(); value++) {
                add(
                        items,
                        ItemKind.VALUE_NAME,
                        new int[] {value},
                        channel.valueNames().get(value));
            }
        }
        for (FailSafeDescription one : rig.failSafes()) {
            add(
                    items,
                    ItemKind.FAIL_SAFE,
                    new int[] {one.number(), one.inhibition().orElse(-1)},
                    one.name());
        }
        return items;
    }

    /**
     * The digest of a description, as the rig makes it: CRC-32 over the contents of all items in their order.
     *
     * @param rig the description; its own digest is not looked at
     * @return 32 bits
     */
    public static int digestOf(RigDescription rig) {
        CRC32 crc = new CRC32();
        CborWriter content = new CborWriter(LONGEST_ITEM);
        for (Item item : of(rig)) {
            content.clear();
            item.writeContent(content);
            crc.update(content.buffer(), 0, content.length());
        }
        return (int) crc.getValue();
    }

    private static void add(List<Item> items, ItemKind kind, int[] figures, String... texts) {
        items.add(new Item(0, 0, items.size(), kind, figures, texts));
    }

    /**
     * A greeting that tells what the rig's probe can hold; of session, boot and build it tells nothing.
     *
     * @param rig the description
     * @param items how many items the description has
     * @return a greeting
     */
    public static Hello greeting(RigDescription rig, int items) {
        ProbeCapacity limits = rig.limits();
        return new Hello(
                0,
                0,
                Wire.VERSION,
                0,
                0,
                limits.real() ? 1 : 0,
                rig.digest(),
                items,
                rig.channels().size(),
                limits.tickMicros(),
                limits.slots(),
                limits.terms(),
                limits.points(),
                limits.guards(),
                0,
                limits.frame(),
                limits.kinds(),
                limits.history(),
                "");
    }

    /**
     * Puts a description together again.
     *
     * @param hello the greeting
     * @param items all of them, in order
     * @return the description
     * @throws IllegalArgumentException if a channel is not whole, or of a kind that this version does not know
     */
    public static RigDescription description(Hello hello, List<Item> items) {
        return description(hello.digest, capacity(hello), items);
    }

    /**
     * Puts a description together again.
     *
     * @param digest as the rig tells it
     * @param limits what its probe can hold
     * @param items all of them, in order
     * @return the description
     * @throws IllegalArgumentException if a channel is not whole, or of a kind that this version does not know
     */
    public static RigDescription description(int digest, ProbeCapacity limits, List<Item> items) {
        List<ChannelDescription> channels = new ArrayList<>();
        List<FailSafeDescription> failSafes = new ArrayList<>();
        for (int at = 0; at < items.size(); at++) {
            Item item = items.get(at);
            if (item.kind == ItemKind.CHANNEL) {
                channels.add(channel(channels.size(), items.subList(at, items.size())));
            } else if (item.kind == ItemKind.FAIL_SAFE) {
                int inhibition = item.figure(1);
                failSafes.add(new FailSafeDescription(
                        item.figure(0),
                        item.text(0),
                        inhibition < 0 ? OptionalInt.empty() : OptionalInt.of(inhibition)));
            }
        }
        return new RigDescription(digest, channels, failSafes, limits);
    }

    /**
     * What a probe can hold and do, as its greeting tells it.
     *
     * @param hello the greeting
     * @return its limits
     */
    public static ProbeCapacity capacity(Hello hello) {
        return new ProbeCapacity(
                hello.real != 0,
                hello.tickMicros,
                hello.slots,
                hello.terms,
                hello.points,
                hello.guards,
                hello.frame,
                hello.kinds,
                hello.history);
    }

    private static ChannelDescription channel(int index, List<Item> from) {
        Item head = from.get(0);
        ChannelKind kind = ChannelKind.of(head.figure(0));
        if (kind == null || from.size() < 2 || from.get(1).kind != ItemKind.RANGE) {
            throw new IllegalArgumentException(
                    "the description of channel \"" + head.text(0) + "\" is not whole, or of a newer version");
        }
        Item range = from.get(1);
        List<String> names = new ArrayList<>();
        for (int at = 2; at < from.size() && from.get(at).kind == ItemKind.VALUE_NAME; at++) {
            names.add(from.get(at).text(0));
        }
        return new ChannelDescription(
                index,
                head.text(0),
                kind,
                head.text(1),
                range.figure(0),
                range.figure(1),
                range.figure(2),
                range.figure(3),
                range.figure(4),
                head.figure(1),
                names);
    }
}
