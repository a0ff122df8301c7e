package snagbench.bench.report.sheet;

import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.FaultScript;
import snagbench.bench.trace.StoredTrace;

/**
 * What a page says beyond the journal.
 *
 * @param traces the stored trace of a result, where it can be read
 * @param scripts the script of a result, where it can be read and is still the one that was run
 * @param wiring where a channel is wired, by channel name
 */
public record Sources(
        Function<ScriptResult, Optional<StoredTrace>> traces,
        Function<ScriptResult, Optional<FaultScript>> scripts,
        Map<String, String> wiring) {
    /** Copies the map. */
    public Sources {
        wiring = Map.copyOf(wiring);
    }

    /**
     * The journal alone.
     *
     * @return nothing beyond it
     */
    public static Sources none() {
        return new Sources(result -> Optional.empty(), result -> Optional.empty(), Map.of());
    }
}
