package snagbench.bench.cli;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/**
 * Ctrl-C, SIGTERM, SIGHUP: the machine's safe stop comes first, then the journal's end, then the process ends. The signal
 * only raises a flag; the session's own thread does the rest, while the ending of the process waits for it. Where no rig hangs
 * on a line there is nothing to wait for.
 */
final class Interruption {
    private static final long LONGEST_SECONDS = 20;

    private final OpenLines lines;
    private final CountDownLatch finished = new CountDownLatch(1);
    private volatile boolean wanted;

    Interruption(OpenLines lines) {
        this.lines = lines;
    }

    /** From now on a signal waits for {@link #finished}, if a line is open when it comes. */
    void install() {
        Runtime.getRuntime().addShutdownHook(new Thread(this::await, "safe stop"));
    }

    private void await() {
        wanted = true;
        if (!lines.any()) {
            return;
        }
        try {
            if (!finished.await(LONGEST_SECONDS, TimeUnit.SECONDS)) {
                System.err.println("snagbench: the safe stop was not confirmed in " + LONGEST_SECONDS
                        + " s; the rig's lease ends by itself");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    boolean isWanted() {
        return wanted;
    }

    /** All is done: the process may end. */
    void finished() {
        finished.countDown();
    }
}
