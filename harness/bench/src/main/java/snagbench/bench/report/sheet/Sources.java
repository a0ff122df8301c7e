package snagbench.bench.report.sheet;

import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import snagbench.bench.report.register.DecisionSheet;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.FaultScript;
import snagbench.bench.trace.StoredTrace;

/**
 * What a page says beyond the journal.
 *
 * @param traces the stored trace of a result, where it can be read
 * @param scripts the script of a result, where it can be read and is still the one that was run
 * @param wiring where a channel is wired, by channel name
 * @param register what register and plan said when the run began; empty where there is none
 * @param decisions the register's symptoms side by side, and against the traces; empty where nobody asked for it yet
 */
public record Sources(
        Function<ScriptResult, Optional<StoredTrace>> traces,
        Function<ScriptResult, Optional<FaultScript>> scripts,
        Map<String, String> wiring,
        Optional<RegisterSheet> register,
        Optional<DecisionSheet> decisions) {
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
        return new Sources(
                result -> Optional.empty(), result -> Optional.empty(), Map.of(), Optional.empty(), Optional.empty());
    }

    /**
     * Where a channel is wired: as the rig's file says now, or else as it did when the run began.
     *
     * @param channel its name
     * @return words, where nobody says it too
     */
    String wired(String channel) {
        String now = wiring.getOrDefault(channel, "");
        if (!now.isEmpty()) {
            return now;
        }
        return register.stream()
                .flatMap(sheet -> sheet.failSafes().stream())
                .flatMap(one -> one.words().stream())
                .flatMap(words -> words.sensors().stream())
                .filter(sensor -> sensor.channel().equals(channel))
                .map(RegisterSheet.Sensor::wired)
                .filter(wired -> !wired.isEmpty())
                .findFirst()
                .orElse("the rig's file does not say");
    }
}
