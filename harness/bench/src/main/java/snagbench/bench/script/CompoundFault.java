package snagbench.bench.script;

import java.util.List;
import java.util.Optional;

/**
 * A fault as it looks in all its sensors, named once in the rig's file for all scripts.
 *
 * @param place where it is written
 * @param name what it is called
 * @param forcings what it does, at least one
 * @param whileHolds the story holds only so long; a script's own {@code while} adds to it
 */
public record CompoundFault(
        Place place, String name, List<Injection.Forcing> forcings, Optional<Condition> whileHolds) {
    /** Copies the list. */
    public CompoundFault {
        forcings = List.copyOf(forcings);
    }
}
