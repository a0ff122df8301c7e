package snagbench.probe;

import org.jspecify.annotations.Nullable;
import snagbench.wire.StopReason;

/**
 * Where the safe stop stands. A stop for the lease or a guard is latched; one that the bench asked for is not. It runs
 * until the tick after the one in which the machine came to stand, so that overrides end at the start of a tick, as
 * always.
 */
final class Stopping {
    private final SafeStop stop;

    private @Nullable StopReason running;
    private @Nullable StopReason latched;

    /** The control code has had a tick to carry the stop out: what it said before was of another stop. */
    private boolean inHand;

    private boolean stands;

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

    void beginTick() {
        if (stands) {
            stands = false;
            running = null;
        }
        inHand = running != null;
    }

    /** The machine stood safe at the end of the tick before: everything forced may go. */
    boolean isDone() {
        return stands;
    }

    /** Begins a stop, or makes the one that runs a graver one. */
    boolean begin(StopReason reason) {
        if (reason != StopReason.LET_GO && latched != StopReason.GUARD) {
            latched = reason;
        }
        if (running != null) {
            return false;
        }
        running = reason;
        stop.stop(reason);
        return true;
    }

    /** The reason of a stop that has come to its end in this tick; null while none has. */
    @Nullable
    StopReason finished() {
        if (running == null || !inHand || !stop.isStopped()) {
            return null;
        }
        stands = true;
        return running;
    }

    void releaseLatch() {
        latched = null;
    }
}
