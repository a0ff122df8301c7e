package snagbench.bench.link;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class OpenPortsTests {
    @Test
    void waitsForTheLastOne() throws Exception {
        OpenPorts ports = new OpenPorts();
        assertTrue(ports.awaitNone(0, TimeUnit.SECONDS));
        ports.opened();
        ports.opened();
        CompletableFuture<Boolean> none = CompletableFuture.supplyAsync(() -> {
            try {
                return ports.awaitNone(30, TimeUnit.SECONDS);
            } catch (InterruptedException e) {
                throw new AssertionError(e);
            }
        });
        ports.closed();
        await().during(Duration.ofMillis(100)).atMost(Device.LONGEST).until(() -> !none.isDone());
        ports.closed();
        assertTrue(none.get(20, TimeUnit.SECONDS));
    }

    @Test
    void waitsNoLongerThanItMay() throws Exception {
        OpenPorts ports = new OpenPorts();
        ports.opened();
        assertFalse(ports.awaitNone(10, TimeUnit.MILLISECONDS));
    }
}
