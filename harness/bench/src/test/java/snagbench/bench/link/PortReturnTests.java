package snagbench.bench.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Waiting for a port that has gone: looked for, never opened, and not for ever. */
@Timeout(60)
class PortReturnTests {
    private static final Duration LONG = Duration.ofSeconds(40);

    @TempDir
    private Path folder;

    @Test
    void aPortThatComesBackIsSeenAndLeftClosed() throws Exception {
        Path name = folder.resolve("board");
        try (Device device = new Device()) {
            AtomicInteger looks = new AtomicInteger();
            AtomicReference<Thread> looker = new AtomicReference<>();
            boolean back = PortReturn.await(name.toString(), LONG, () -> {
                looker.set(Thread.currentThread());
                if (looks.incrementAndGet() == 3) {
                    plugIn(name, device);
                }
                return false;
            });

            assertTrue(back);
            assertTrue(looks.get() <= 4, () -> "seen at the next look, not after " + looks.get());
            assertEquals(Thread.currentThread(), looker.get(), "by the thread that waits");
            assertFalse(device.hasHost(), "nobody has opened it");
        }
    }

    private static void plugIn(Path name, Device device) {
        try {
            Files.createSymbolicLink(name, device.port());
        } catch (java.io.IOException e) {
            throw new AssertionError(e);
        }
    }

    @Test
    void aPortThatIsThereIsNotWaitedFor() throws Exception {
        try (Device device = new Device()) {
            assertTrue(PortReturn.await(device.port().toString(), Duration.ofMillis(100), () -> false));
        }
    }

    @Test
    void aPortThatStaysAwayIsGivenUp() {
        assertFalse(PortReturn.await(folder.resolve("board").toString(), Duration.ofMillis(100), () -> false));
    }

    @Test
    void whoWantsToStopWaitsNoLonger() {
        CompletableFuture<Boolean> back = CompletableFuture.supplyAsync(
                () -> PortReturn.await(folder.resolve("board").toString(), LONG, () -> true));

        assertFalse(back.orTimeout(30, java.util.concurrent.TimeUnit.SECONDS).join());
    }

    @Test
    void otherThreadsUncaughtExceptionsStayWithWhoeverHandlesThem() {
        Thread.UncaughtExceptionHandler before = Thread.getDefaultUncaughtExceptionHandler();
        AtomicReference<Thread.UncaughtExceptionHandler> during = new AtomicReference<>();
        PortReturn.await(folder.resolve("board").toString(), Duration.ofMillis(100), () -> {
            during.set(Thread.getDefaultUncaughtExceptionHandler());
            return false;
        });

        assertEquals(before, during.get());
    }
}
