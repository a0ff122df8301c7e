package snagbench.bench.cli;

import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import snagbench.bench.link.RigWatch;

/**
 * Names a virtual rig whose code does not come back. It cannot be stopped from within, so the process ends: the journal
 * holds what was finished.
 */
final class HangWatch implements AutoCloseable {
    static final int LONGEST_SECONDS = 20;

    private final RigWatch watch;
    private final Runnable hung;
    private final ScheduledExecutorService looker = Executors.newSingleThreadScheduledExecutor(HangWatch::daemon);
    private @Nullable Future<?> looking;
    private long countBefore;
    private int looksAlike;

    HangWatch(RigWatch watch, Runnable hung) {
        this.watch = watch;
        this.hung = hung;
    }

    void start() {
        looking = looker.scheduleWithFixedDelay(this::look, 1, 1, TimeUnit.SECONDS);
    }

    private static Thread daemon(Runnable work) {
        Thread thread = new Thread(work, "hang watch");
        thread.setDaemon(true);
        return thread;
    }

    private void look() {
        long count = watch.count();
        boolean inside = (count & 1) == 1;
        looksAlike = inside && count == countBefore ? looksAlike + 1 : 0;
        countBefore = count;
        if (looksAlike >= LONGEST_SECONDS) {
            hung.run();
        }
    }

    @Override
    public void close() {
        if (looking != null) {
            looking.cancel(true);
        }
        looker.shutdownNow();
    }
}
