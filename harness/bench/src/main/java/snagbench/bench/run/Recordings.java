package snagbench.bench.run;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Place;
import snagbench.bench.script.Stage;

/** What a rig is armed with to be recorded without a fault. */
public final class Recordings {
    private Recordings() {}

    /**
     * A script that injects nothing and expects nothing.
     *
     * @param place where what it is made of is written
     * @param name what the recording is called
     * @param begin what it begins with; may be empty
     * @return a script to arm a rig with
     */
    public static FaultScript script(Place place, String name, List<Stage> begin) {
        return new FaultScript(place, name, List.of(), "", Set.of(), begin, List.of(), List.of(), Optional.empty());
    }

    /**
     * The beginning of a script, without its injections.
     *
     * @param script the script
     * @return a script that begins as that one does
     */
    public static FaultScript beginningOf(FaultScript script) {
        return script(script.place(), script.name(), script.begin());
    }
}
