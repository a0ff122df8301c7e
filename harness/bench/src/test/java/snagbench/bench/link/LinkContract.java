package snagbench.bench.link;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.function.Executable;

/** What every link does, whatever it leads to. */
@Timeout(60)
abstract class LinkContract {
    private static final long LONGEST_MICROS = 20_000_000;

    private FarEnd far;
    private Link link;

    /** The other end of the line. */
    interface FarEnd extends AutoCloseable {
        Link connect() throws LinkException;

        void says(byte[] bytes) throws Exception;

        /** Waits until so many bytes were heard in all. */
        byte[] heard(int length) throws Exception;

        /** Fails as it can. */
        void dies() throws Exception;

        @Override
        void close();
    }

    abstract FarEnd farEnd() throws Exception;

    @BeforeEach
    void connect() throws Exception {
        far = farEnd();
        link = far.connect();
    }

    @AfterEach
    void disconnect() {
        link.close();
        far.close();
    }

    static byte[] everyByte() {
        byte[] bytes = new byte[256];
        IntStream.range(0, bytes.length).forEach(i -> bytes[i] = (byte) i);
        return bytes;
    }

    /** Receives so many bytes and no more, in pieces of some size at most. */
    static byte[] receive(Link link, int length, int piece) throws LinkException {
        byte[] all = new byte[length];
        int got = 0;
        long until = link.nowMicros() + LONGEST_MICROS;
        while (got < length && link.nowMicros() < until) {
            byte[] into = new byte[Math.min(piece, length - got)];
            int bytes = link.receive(into, until);
            System.arraycopy(into, 0, all, got, bytes);
            got += bytes;
        }
        assertEquals(length, got, "bytes received");
        return all;
    }

    /** The message of what must fail. */
    static String failure(Executable call) {
        return String.valueOf(assertThrows(LinkException.class, call).getMessage());
    }

    @Test
    void carriesEveryByteThere() throws Exception {
        link.send(everyByte(), 256);
        assertArrayEquals(everyByte(), far.heard(256));
    }

    @Test
    void carriesEveryByteBack() throws Exception {
        far.says(everyByte());
        assertArrayEquals(everyByte(), receive(link, 256, 256));
    }

    @Test
    void sendsNoMoreThanItIsTold() throws Exception {
        link.send(new byte[] {1, 2, 3, 4}, 2);
        link.send(new byte[] {5}, 1);
        assertArrayEquals(new byte[] {1, 2, 5}, far.heard(3));
    }

    @Test
    void handsOutInSmallPiecesWhatCameInOne() throws Exception {
        byte[] said = new byte[3000];
        new Random(20).nextBytes(said);
        far.says(said);
        assertArrayEquals(said, receive(link, said.length, 7));
    }

    @Test
    void comesBackWithoutBytesWhenTheTimeHasCome() throws Exception {
        long until = link.nowMicros() + 30_000;
        assertEquals(0, link.receive(new byte[10], until));
        assertTrue(link.nowMicros() >= until, "it came back " + (until - link.nowMicros()) + " us early");
    }

    @Test
    void takesWhatIsThereAlthoughTheTimeIsPast() throws Exception {
        far.says(new byte[] {1, 2, 3});
        assertArrayEquals(new byte[] {1}, receive(link, 1, 1));
        byte[] into = new byte[10];
        assertEquals(2, link.receive(into, link.nowMicros() - 1_000));
        assertArrayEquals(new byte[] {2, 3}, Arrays.copyOf(into, 2));
        assertEquals(0, link.receive(into, link.nowMicros() - 1_000));
    }

    @Test
    void hasAClockThatOnlyRunsForward() throws Exception {
        long before = link.nowMicros();
        for (int i = 0; i < 100; i++) {
            link.receive(new byte[10], before + 10);
            long now = link.nowMicros();
            assertTrue(now >= before, now + " after " + before);
            before = now;
        }
    }

    @Test
    void doesNothingMoreOnceClosed() {
        link.close();
        String closed = "the link to " + link.name() + " is closed";
        assertEquals(closed, failure(() -> link.send(new byte[1], 1)));
        assertEquals(closed, failure(() -> link.receive(new byte[1], 0)));
        assertDoesNotThrow(link::close);
    }

    @Test
    void namesItselfWhenTheLineIsLost() throws Exception {
        far.dies();
        String lost = failure(() -> link.receive(new byte[1], link.nowMicros() + LONGEST_MICROS));
        assertTrue(lost.startsWith(link.name()), lost);
        assertFalse(link.name().isBlank());
    }
}
