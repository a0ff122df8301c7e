package snagbench.bench.script;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Overrides that strike together.
 *
 * @param place where it is written
 * @param name its name; "injection 1" and so on where the script gives none
 * @param trigger what strikes it
 * @param forcings what it does, at least one
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
    /** Copies the list. */
    public Injection {
        forcings = List.copyOf(forcings);
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
    }

    /**
     * The times of an intermittent fault. It begins on.
     *
     * @param onMicros how long on, from 1
     * @param offMicros how long off, from 1
     */
    public record Gate(long onMicros, long offMicros) {}
}
