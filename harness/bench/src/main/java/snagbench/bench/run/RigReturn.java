package snagbench.bench.run;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import snagbench.wire.Hello;
import snagbench.wire.ResetCause;

/**
 * What the greeting of a rig tells that was lost and came back.
 *
 * @param isSameBoot true if its controller has run on meanwhile
 * @param cause why it started last
 */
record RigReturn(boolean isSameBoot, ResetCause cause) {
    /**
     * Restarts that a controller makes by itself. The others may come of the cable: with its power gone, or its reset line
     * moved when the port was opened.
     */
    private static final Set<ResetCause> ITS_OWN =
            EnumSet.of(ResetCause.BROWN_OUT, ResetCause.WATCHDOG, ResetCause.SOFTWARE);

    static RigReturn of(Hello before, Hello after) {
        ResetCause cause = ResetCause.of(after.cause);
        return new RigReturn(before.boot == after.boot, cause == null ? ResetCause.UNKNOWN : cause);
    }

    /** Whether it was lost because it restarted, and not for the cable. */
    boolean tellsOfARestart() {
        return !isSameBoot && ITS_OWN.contains(cause);
    }

    String words() {
        return isSameBoot ? ", still running" : ", started anew (" + name(cause) + ")";
    }

    static String name(ResetCause cause) {
        return cause.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
