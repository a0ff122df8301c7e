package snagbench.bench.script;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snagbench.wire.GuardKind;

/**
 * What only people know of a rig.
 *
 * @param place where the file starts
 * @param name the rig's name
 * @param virtual name of the provider, for a virtual rig
 * @param line the cable, for a rig that hangs on one
 * @param leaseMillis how long a lease lives unless renewed
 * @param settlingMicros how long the rig needs after the last deadline of a script
 * @param ready how it is brought to ready; empty where it is always
 * @param guards limits on real readings, watched on the rig
 * @param wiring where a channel is wired, by channel name, for the person with the screwdriver
 * @param snapshot where its stored description lies
 * @param derived quantities that scripts may use, in the order of their indexes
 * @param compounds faults as they look in all their sensors
 * @param filterDelays how much a filter before the probe delays the real reading of a channel, in microseconds, by the channel's
 *     name; channels without a filter are left out
 * @param clearFloor how far beyond its ordinary ways the floor around the machine is clear, in steps of the sensor that tells
 *     where it stands, by the sensor's name
 * @param adjustable constants of the control code that may be changed to see whether a plan notices
 */
public record RigFile(
        Place place,
        String name,
        Optional<String> virtual,
        SerialLine line,
        int leaseMillis,
        long settlingMicros,
        Optional<Ready> ready,
        List<GuardSpec> guards,
        Map<String, String> wiring,
        Path snapshot,
        List<DerivedChannel> derived,
        List<CompoundFault> compounds,
        Map<String, Long> filterDelays,
        Map<String, Integer> clearFloor,
        List<Adjustable> adjustable) {
    /** Copies the collections. */
    public RigFile {
        guards = List.copyOf(guards);
        wiring = Map.copyOf(wiring);
        derived = List.copyOf(derived);
        compounds = List.copyOf(compounds);
        filterDelays = Map.copyOf(filterDelays);
        clearFloor = Map.copyOf(clearFloor);
        adjustable = List.copyOf(adjustable);
    }

    /**
     * A rig's file without a line of its own, derived quantities and compound faults.
     *
     * @param place where the file starts
     * @param name the rig's name
     * @param virtual name of the provider, for a virtual rig
     * @param leaseMillis how long a lease lives unless renewed
     * @param settlingMicros how long the rig needs after the last deadline of a script
     * @param ready how it is brought to ready; empty where it is always
     * @param guards limits on real readings, watched on the rig
     * @param wiring where a channel is wired, by channel name, for the person with the screwdriver
     * @param snapshot where its stored description lies
     */
    public RigFile(
            Place place,
            String name,
            Optional<String> virtual,
            int leaseMillis,
            long settlingMicros,
            Optional<Ready> ready,
            List<GuardSpec> guards,
            Map<String, String> wiring,
            Path snapshot) {
        this(
                place,
                name,
                virtual,
                SerialLine.usual(),
                leaseMillis,
                settlingMicros,
                ready,
                guards,
                wiring,
                snapshot,
                List.of(),
                List.of(),
                Map.of(),
                Map.of(),
                List.of());
    }

    /**
     * A rig's serial line.
     *
     * @param port path of the device; empty for a virtual rig, which hangs on one only where it is served
     * @param baud bits a second, above 0
     */
    public record SerialLine(Optional<String> port, int baud) {
        /** What many boards' examples set; common practice, no source. */
        public static final int USUAL_BAUD = 115_200;

        /**
         * The line of a rig whose file says nothing of one.
         *
         * @return no port, and the usual speed
         */
        public static SerialLine usual() {
            return new SerialLine(Optional.empty(), USUAL_BAUD);
        }
    }

    /**
     * A constant of the control code that may be changed, both ways.
     *
     * @param place where it is written
     * @param channel the constant
     * @param percent by how much, in percent of what it is as built; 0 where it is a step
     * @param raw by how much, in the channel's steps; 0 where it is a percentage
     */
    public record Adjustable(Place place, ChannelDescription channel, BigDecimal percent, int raw) {
        /**
         * The next lower value, within the constant's range; the same where there is none.
         *
         * @param built as built, in the channel's steps
         * @return in the channel's steps
         */
        public int lower(int built) {
            return (int) Math.max(Math.min(channel.lowest(), built), (long) built - step(built));
        }

        /**
         * The next higher value, within the constant's range; the same where there is none.
         *
         * @param built as built, in the channel's steps
         * @return in the channel's steps
         */
        public int higher(int built) {
            return (int) Math.min(Math.max(channel.highest(), built), (long) built + step(built));
        }

        /** At least one step of the channel: less would be no change. */
        private long step(int built) {
            if (raw != 0) {
                return raw;
            }
            BigDecimal part = percent.multiply(BigDecimal.valueOf(Math.abs((long) built)))
                    .movePointLeft(2)
                    .setScale(0, RoundingMode.HALF_UP);
            return Math.max(1, part.longValueExact());
        }
    }

    /**
     * How the rig is brought to ready between scripts.
     *
     * @param command the command channel that is told 1 for one tick
     * @param condition what holds when it is ready
     * @param withinMicros how long that may take, on the rig's clock
     */
    public record Ready(ChannelDescription command, Condition condition, long withinMicros) {}

    /**
     * A limit on real readings. Figures are in the steps of the channels, as {@link snagbench.wire.Guard} has them.
     *
     * @param place where it is written
     * @param name what it is called
     * @param kind what it limits
     * @param channel the channel that it watches
     * @param a first limit
     * @param b second limit
     * @param windowTicks over how many ticks a change counts
     * @param timeMicros how long, for a stall
     * @param command the actuator of a stall
     */
    public record GuardSpec(
            Place place,
            String name,
            GuardKind kind,
            ChannelDescription channel,
            int a,
            int b,
            int windowTicks,
            long timeMicros,
            Optional<ChannelDescription> command) {}
}
