package snagbench.bench.script;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Overrides that strike together.
 *
 * @param place where it is written
 * @param name its name; "injection 1" and so on where the script gives none
 * @param trigger what strikes it
 * @param forcings what it does, at least one; the one that is on for longest comes first, since the others end with it
 * @param whileHolds it ends at the first tick in which this does not hold
 * @param until it ends at the first tick in which this holds
 * @param lastsMicros its own time, on the rig's clock
 */
public record Injection(
        Place place,
        String name,
        Trigger trigger,
        List<Forcing> forcings,
        Optional<Condition> whileHolds,
        Optional<Condition> until,
        OptionalLong lastsMicros) {
    /** Copies the list, and puts those that end by themselves behind the others; those that are alike keep their order. */
    public Injection {
        List<Forcing> sorted = new ArrayList<>(forcings);
        sorted.sort(Comparator.comparingLong(Forcing::ownMicros).reversed());
        forcings = List.copyOf(sorted);
    }

    /**
     * An injection that strikes once, at the first occasion after the beginning.
     *
     * @param place where it is written
     * @param name its name
     * @param when what strikes it
     * @param forcings what it does, at least one
     * @param whileHolds it ends at the first tick in which this does not hold
     * @param until it ends at the first tick in which this holds
     * @param lastsMicros its own time, on the rig's clock
     */
    public Injection(
            Place place,
            String name,
            Condition when,
            List<Forcing> forcings,
            Optional<Condition> whileHolds,
            Optional<Condition> until,
            OptionalLong lastsMicros) {
        this(place, name, Trigger.at(when), forcings, whileHolds, until, lastsMicros);
    }

    /**
     * One channel under one fault.
     *
     * @param place where it is written
     * @param channel the channel
     * @param fault what happens to it
     * @param gate on and off times, for an intermittent fault
     */
    public record Forcing(Place place, ChannelDescription channel, Fault fault, Optional<Gate> gate) {
        /**
         * A fault that is there without a break.
         *
         * @param place where it is written
         * @param channel the channel
         * @param fault what happens to it
         */
        public Forcing(Place place, ChannelDescription channel, Fault fault) {
            this(place, channel, fault, Optional.empty());
        }

        /**
         * How long it is on by its nature.
         *
         * @return in microseconds; 0 for a spike of one tick, {@link Long#MAX_VALUE} for without end
         */
        public long ownMicros() {
            return fault instanceof Fault.Spike spike ? spike.forMicros().orElse(0) : Long.MAX_VALUE;
        }
    }

    /**
     * The times of an intermittent fault. It begins on.
     *
     * @param onMicros how long on, from 1
     * @param offMicros how long off, from 1
     */
    public record Gate(long onMicros, long offMicros) {}
}
