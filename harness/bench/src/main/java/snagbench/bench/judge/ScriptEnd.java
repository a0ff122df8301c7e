package snagbench.bench.judge;

import java.util.OptionalLong;
import snagbench.bench.script.FaultScript;
import snagbench.bench.trace.Trace;

/** When a script is over. */
public final class ScriptEnd {
    private ScriptEnd() {}

    /**
     * Until when the rig must be listened to, as far as what was seen so far tells.
     *
     * @param script the script
     * @param trace what was seen so far
     * @param settlingMicros how long the rig needs after the last deadline, in microseconds
     * @param longestMicros the longest that a script may take, in microseconds since arming
     * @return microseconds since arming; empty while it is not yet known
     */
    public static OptionalLong micros(FaultScript script, Trace trace, long settlingMicros, long longestMicros) {
        return OptionalLong.empty();
    }
}
