package snagbench.bench.judge;

import java.util.OptionalLong;
import snagbench.bench.script.FaultScript;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/** When a script is over. */
public final class ScriptEnd {
    private ScriptEnd() {}

    /**
     * Until when the rig must be listened to, as far as what was seen so far tells: the end that the script gives, or its
     * last deadline and the rig's settling time; never before a window closes. Where the program ended, the rig stopped or
     * the controller restarted, that moment.
     *
     * @param script the script
     * @param trace what was seen so far
     * @param settlingMicros how long the rig needs after the last deadline, in microseconds
     * @param longestMicros the longest that a script may take, in microseconds since arming
     * @return microseconds since arming; empty while it is not yet known
     */
    public static OptionalLong micros(FaultScript script, Trace trace, long settlingMicros, long longestMicros) {
        long now = trace.rows() == 0 ? 0 : trace.micros(trace.rows() - 1);
        if (trace.restart().isPresent()) {
            return OptionalLong.of(Math.min(now, longestMicros));
        }
        for (Happening one : trace.events()) {
            if (one.kind() == EventKind.STOP || one.kind() == EventKind.STAGE_TIMED_OUT) {
                return OptionalLong.of(Math.min(one.micros(), longestMicros));
            }
        }
        OptionalLong end = new Course(script, trace, settlingMicros).ending().listenToMicros();
        if (end.isPresent()) {
            return OptionalLong.of(Math.min(end.getAsLong(), longestMicros));
        }
        return now >= longestMicros ? OptionalLong.of(longestMicros) : OptionalLong.empty();
    }
}
