package snagbench.bench.link;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.Random;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(30)
class ByteQueueTests {
    private static final long LONG = TimeUnit.SECONDS.toNanos(20);

    @RepeatedTest(20)
    void keepsTheOrderBetweenTwoThreads(RepetitionInfo info) throws Exception {
        int seed = info.getCurrentRepetition();
        Random random = new Random(seed);
        byte[] all = new byte[20_000];
        random.nextBytes(all);
        ByteQueue queue = new ByteQueue(1 + random.nextInt(300));
        int longest = Math.min(64, queueRoom(queue));
        CompletableFuture<Void> putting = CompletableFuture.runAsync(() -> put(queue, all, longest, seed));
        ByteArrayOutputStream taken = new ByteArrayOutputStream();
        byte[] into = new byte[1 + random.nextInt(100)];
        int bytes;
        while ((bytes = queue.take(into, LONG)) > 0) {
            taken.write(into, 0, bytes);
        }
        assertEquals(-1, bytes, "seed " + seed);
        assertArrayEquals(all, taken.toByteArray(), "seed " + seed);
        putting.get(20, TimeUnit.SECONDS);
    }

    private static int queueRoom(ByteQueue queue) throws InterruptedException {
        int room = 0;
        while (queue.put(new byte[1], 1, 0)) {
            room++;
        }
        queue.take(new byte[room], 0);
        return room;
    }

    private static void put(ByteQueue queue, byte[] all, int longest, int seed) {
        Random random = new Random(-seed);
        try {
            for (int at = 0; at < all.length; ) {
                int length = Math.min(all.length - at, 1 + random.nextInt(longest));
                assertTrue(queue.put(Arrays.copyOfRange(all, at, at + length), length, LONG));
                at += length;
            }
        } catch (InterruptedException e) {
            throw new AssertionError(e);
        } finally {
            queue.end();
        }
    }

    @Test
    void takesAllOrNothing() throws InterruptedException {
        ByteQueue queue = new ByteQueue(10);
        assertTrue(queue.put(new byte[] {1, 2, 3, 4, 5, 6, 7}, 7, 0));
        assertFalse(queue.put(new byte[4], 4, 1_000_000));
        byte[] into = new byte[20];
        assertEquals(7, queue.take(into, 0));
        assertTrue(queue.put(new byte[10], 10, 0));
    }

    @Test
    void tellsAnEndOnlyWhenItIsEmpty() throws InterruptedException {
        ByteQueue queue = new ByteQueue(10);
        assertEquals(0, queue.take(new byte[5], 0));
        queue.put(new byte[] {1, 2}, 2, 0);
        queue.end();
        assertEquals(1, queue.take(new byte[1], LONG));
        assertEquals(1, queue.take(new byte[1], LONG));
        assertEquals(-1, queue.take(new byte[1], LONG));
    }
}
