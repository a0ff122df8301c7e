package snagbench.bench.script;

import java.util.List;
import java.util.Optional;

/**
 * What a rig tells of itself. There is one such record, whether it came over the line, from a stored snapshot or from a
 * virtual rig.
 *
 * @param digest CRC-32 over the description's items, as the rig tells it
 * @param channels by their index
 * @param failSafes in the rig's order
 * @param limits what its probe can hold
 */
public record RigDescription(
        int digest, List<ChannelDescription> channels, List<FailSafeDescription> failSafes, ProbeCapacity limits) {
    /** Copies the lists. */
    public RigDescription {
        channels = List.copyOf(channels);
        failSafes = List.copyOf(failSafes);
    }

    /**
     * Finds a channel.
     *
     * @param name exactly
     * @return the channel, if there is one of that name
     */
    public Optional<ChannelDescription> channel(String name) {
        return channels.stream().filter(one -> one.name().equals(name)).findFirst();
    }

    /**
     * Finds a fail-safe.
     *
     * @param name exactly
     * @return the fail-safe, if there is one of that name
     */
    public Optional<FailSafeDescription> failSafe(String name) {
        return failSafes.stream().filter(one -> one.name().equals(name)).findFirst();
    }

    /**
     * Finds a fail-safe by its number on the line.
     *
     * @param number from 1
     * @return its name, or "fail-safe " and the number where the rig describes none
     */
    public String failSafeName(int number) {
        return failSafes.stream()
                .filter(one -> one.number() == number)
                .map(FailSafeDescription::name)
                .findFirst()
                .orElse("fail-safe " + number);
    }

    /**
     * The step of the control code's sequence.
     *
     * @return its channel, if the rig has one
     */
    public Optional<ChannelDescription> step() {
        return channels.stream().filter(ChannelDescription::isStep).findFirst();
    }
}
