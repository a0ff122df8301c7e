package snagbench.bench.cli;

import java.util.concurrent.atomic.AtomicInteger;

/** Counts the lines to rigs that are open: while there is one, the end of the process waits for the rig's safe stop. */
final class OpenLines {
    private final AtomicInteger count = new AtomicInteger();

    OpenLines() {}

    /** One more is about to be opened; it counts until what comes back is closed. To be asked for before the line itself. */
    Opened open() {
        count.incrementAndGet();
        return count::decrementAndGet;
    }

    boolean any() {
        return count.get() > 0;
    }

    /** A line that is open, with all that is still to be done when it has been closed. */
    @FunctionalInterface
    interface Opened extends AutoCloseable {
        @Override
        void close();
    }
}
