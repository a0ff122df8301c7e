package snagbench.probe;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.zip.CRC32;
import snagbench.wire.CborWriter;
import snagbench.wire.ChannelKind;
import snagbench.wire.Item;
import snagbench.wire.ItemKind;
import snagbench.wire.Wire;

/**
 * What a rig tells of itself: its channels, the names of their values, its fail-safes. Every rig has the two channels
 * of the fail-safe report, which are added first: {@code failsafe.last} and {@code failsafe.count}.
 */
public final class Description {
    private final List<Channel> channels;
    private final List<FailSafe> failSafes;
    private final List<Item> items;
    private final int digest;

    private Description(Builder from) {
        channels = Collections.unmodifiableList(new ArrayList<>(from.channels));
        failSafes = Collections.unmodifiableList(new ArrayList<>(from.failSafes));
        items = Collections.unmodifiableList(itemsOf(channels, failSafes));
        digest = digestOf(items);
    }

    /**
     * Starts a description.
     *
     * @return a builder that holds the fail-safe report alone
     */
    public static Builder builder() {
        return new Builder();
    }

    /**
     * All channels, by their index.
     *
     * @return unmodifiable
     */
    public List<Channel> channels() {
        return channels;
    }

    /**
     * All fail-safes.
     *
     * @return unmodifiable
     */
    public List<FailSafe> failSafes() {
        return failSafes;
    }

    /**
     * Which fail-safe answered last.
     *
     * @return the channel; its value is a fail-safe's number, 0 before the first answer
     */
    public Channel lastAnswer() {
        return channels.get(0);
    }

    /**
     * How often fail-safes have answered since arming.
     *
     * @return the channel
     */
    public Channel answerCount() {
        return channels.get(1);
    }

    /**
     * The description as it travels.
     *
     * @return items in order, answering session 0 and number 0
     */
    public List<Item> items() {
        return items;
    }

    /**
     * CRC-32 over the contents of all items in order.
     *
     * @return 32 bits
     */
    public int digest() {
        return digest;
    }

    boolean has(int channel) {
        return channel >= 0 && channel < channels.size();
    }

    private static List<Item> itemsOf(List<Channel> channels, List<FailSafe> failSafes) {
        List<Item> items = new ArrayList<>();
        for (Channel channel : channels) {
            ChannelSpec spec = channel.spec();
            add(items, ItemKind.CHANNEL, new int[] {spec.kind.code(), spec.flags}, spec.name, spec.unit);
            add(items, ItemKind.RANGE, new int[] {
                spec.stepMultiplier, spec.stepExponent, spec.lowest, spec.highest, spec.absent
            });
            for (int value = 0; value < spec.valueNames.size(); value++) {
                add(items, ItemKind.VALUE_NAME, new int[] {value}, spec.valueNames.get(value));
            }
        }
        for (FailSafe failSafe : failSafes) {
            int[] figures = {failSafe.number(), failSafe.inhibition().index()};
            add(items, ItemKind.FAIL_SAFE, figures, failSafe.name());
        }
        return items;
    }

    private static void add(List<Item> items, ItemKind kind, int[] figures, String... texts) {
        items.add(new Item(0, 0, items.size(), kind, figures, texts));
    }

    private static int digestOf(List<Item> items) {
        CRC32 crc = new CRC32();
        CborWriter content = new CborWriter(Wire.SMALLEST_FRAME);
        for (Item item : items) {
            content.clear();
            item.writeContent(content);
            crc.update(content.buffer(), 0, content.length());
        }
        return (int) crc.getValue();
    }

    /** Gathers channels and fail-safes; what it hands out are the handles for the control code. */
    public static final class Builder {
        private final List<Channel> channels = new ArrayList<>();
        private final List<FailSafe> failSafes = new ArrayList<>();

        private Builder() {
            channel(ChannelSpec.of(ChannelKind.STATE, "failsafe.last").range(0, 255));
            channel(ChannelSpec.of(ChannelKind.COUNTER, "failsafe.count").range(0, Integer.MAX_VALUE));
        }

        /**
         * Adds a channel.
         *
         * @param spec what it is
         * @return its handle
         * @throws IllegalArgumentException if there is one of that name
         */
        public Channel channel(ChannelSpec spec) {
            for (Channel other : channels) {
                if (other.name().equals(spec.name)) {
                    throw new IllegalArgumentException("two channels named " + spec.name);
                }
            }
            Channel channel = new Channel(channels.size(), spec);
            channels.add(channel);
            return channel;
        }

        /**
         * Adds a fail-safe that can be inhibited: its inhibition becomes a channel named "inhibit " and its name.
         *
         * @param number from 1 to 255, given once
         * @param name as in the register, up to 16 bytes in UTF-8
         * @return its handle
         * @throws IllegalArgumentException if the number or name is taken or out of range
         */
        public FailSafe failSafe(int number, String name) {
            ChannelSpec.requireLength("fail-safe's name", name, 1, Wire.LONGEST_NAME - "inhibit ".length());
            for (FailSafe other : failSafes) {
                if (other.number() == number) {
                    throw new IllegalArgumentException("two fail-safes numbered " + number);
                }
            }
            if (number < 1 || number > 255) {
                throw new IllegalArgumentException("fail-safe " + name + " numbered " + number + ", wanted 1 to 255");
            }
            Channel inhibition = channel(ChannelSpec.of(ChannelKind.INHIBITION, "inhibit " + name));
            FailSafe failSafe = new FailSafe(number, name, inhibition);
            failSafes.add(failSafe);
            return failSafe;
        }

        /**
         * Makes the description.
         *
         * @return the description
         */
        public Description build() {
            return new Description(this);
        }
    }
}
