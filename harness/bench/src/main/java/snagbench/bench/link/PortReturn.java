package snagbench.bench.link;

import java.time.Duration;
import java.util.function.BooleanSupplier;
import org.awaitility.Awaitility;
import org.awaitility.core.ConditionTimeoutException;

/**
 * Waits for a port that has gone to come back by itself: a board that restarts may leave the bus for a while. The port is
 * looked for and never opened meanwhile, since opening moves lines that restart many boards.
 */
public final class PortReturn {
    private static final Duration BETWEEN_LOOKS = Duration.ofMillis(20);

    private PortReturn() {}

    /**
     * Waits, in the thread of the caller.
     *
     * @param path of the device, or of a link to it
     * @param longest how long to wait at most, above 0
     * @param cancelled true once the user wants to stop; then it is not waited for any longer
     * @return true if this process may open it now
     */
    public static boolean await(String path, Duration longest, BooleanSupplier cancelled) {
        try {
            // Uncaught exceptions of other threads are not its business.
            Awaitility.await()
                    .dontCatchUncaughtExceptions()
                    .pollInSameThread()
                    .pollDelay(Duration.ZERO)
                    .pollInterval(BETWEEN_LOOKS)
                    .atMost(longest)
                    .until(() -> Ports.mayBeOpened(path) || cancelled.getAsBoolean());
            return !cancelled.getAsBoolean();
        } catch (ConditionTimeoutException e) {
            return false;
        }
    }
}
