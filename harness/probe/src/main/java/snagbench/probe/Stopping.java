package snagbench.probe;

import org.jspecify.annotations.Nullable;
import snagbench.wire.StopReason;

/** Where the safe stop stands. A stop for the lease or a guard is latched; one that the bench asked for is not. */
final class Stopping {
    private final SafeStop stop;

    @Nullable
    private StopReason running;

    @Nullable
    private StopReason latched;

    Stopping(SafeStop stop) {
        this.stop = stop;
    }

    boolean isRunning() {
        return running != null;
    }

    boolean isLatched() {
        return latched != null;
    }

    /** Why a stop is latched; {@link StopReason#LET_GO} when none is. */
    StopReason latchedFor() {
        return latched == null ? StopReason.LET_GO : latched;
    }

    /** Begins a stop, or makes the one that runs a graver one. */
    boolean begin(StopReason reason) {
        boolean latches = reason != StopReason.LET_GO;
        if (latches && latched != StopReason.GUARD) {
            latched = reason;
        }
        if (running != null) {
            return false;
        }
        running = reason;
        stop.stop(reason);
        return true;
    }

    /** The reason of a stop that has just come to its end; null while none has. */
    @Nullable
    StopReason finished() {
        if (running == null || !stop.isStopped()) {
            return null;
        }
        StopReason reason = running;
        running = null;
        return reason;
    }

    void releaseLatch() {
        latched = null;
    }
}
