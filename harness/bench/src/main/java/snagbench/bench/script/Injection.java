package snagbench.bench.script;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Overrides that strike together.
 *
 * @param place where it is written
 * @param name its name; "injection 1" and so on where the script gives none
 * @param when what strikes it
 * @param forcings what it does, at least one
 * @param whileHolds it ends at the first tick in which this does not hold
 * @param until it ends at the first tick in which this holds
 * @param lastsMicros its own time, on the rig's clock
 */
public record Injection(
        Place place,
        String name,
        Condition when,
        List<Forcing> forcings,
        Optional<Condition> whileHolds,
        Optional<Condition> until,
        OptionalLong lastsMicros) {
    /** Copies the list. */
    public Injection {
        forcings = List.copyOf(forcings);
    }

    /**
     * One channel under one fault.
     *
     * @param place where it is written
     * @param channel the channel
     * @param fault what happens to it
     */
    public record Forcing(Place place, ChannelDescription channel, Fault fault) {}
}
