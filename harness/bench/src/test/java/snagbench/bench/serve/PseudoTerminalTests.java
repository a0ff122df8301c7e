package snagbench.bench.serve;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.time.Duration;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** On a real pseudo-terminal; the host is a file opened like any other. */
@Timeout(value = 30, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class PseudoTerminalTests {
    private static final Duration LONGEST = Duration.ofSeconds(10);

    private PseudoTerminal terminal;

    @BeforeEach
    void open() throws IOException {
        terminal = PseudoTerminal.open(500_000);
    }

    @AfterEach
    void close() {
        terminal.close();
    }

    private static byte[] allBytes() {
        byte[] bytes = new byte[256];
        for (int i = 0; i < bytes.length; i++) {
            bytes[i] = (byte) i;
        }
        return bytes;
    }

    private byte[] readAtDevice(int length) {
        byte[] read = new byte[length];
        int[] got = {0};
        await().atMost(LONGEST).until(() -> {
            byte[] some = new byte[length - got[0]];
            int count = terminal.read(some);
            System.arraycopy(some, 0, read, got[0], count);
            got[0] += count;
            return got[0] == length;
        });
        return read;
    }

    @Test
    void carriesEveryByteValueToTheHostAsItIs() throws IOException {
        try (HostFile host = new HostFile(terminal.port())) {
            assertEquals(256, terminal.write(allBytes(), 0, 256));
            assertArrayEquals(allBytes(), host.read(256));
        }
    }

    @Test
    void carriesEveryByteValueFromTheHostAsItIsAndEchoesNothing() throws IOException {
        try (HostFile host = new HostFile(terminal.port())) {
            host.write(allBytes());
            assertArrayEquals(allBytes(), readAtDevice(256));
            assertEquals(0, host.waiting());
        }
    }

    @Test
    void tellsWhetherAHostIsThere() throws IOException {
        assertFalse(terminal.hasHost());
        try (HostFile host = new HostFile(terminal.port())) {
            assertTrue(terminal.hasHost());
            host.write(new byte[] {1});
        }
        assertFalse(terminal.hasHost());
        assertArrayEquals(new byte[] {1}, readAtDevice(1), "the last words of a host that has left");
        try (HostFile host = new HostFile(terminal.port())) {
            assertTrue(terminal.hasHost());
            assertEquals(0, host.waiting());
        }
    }

    @Test
    void handsTheNextHostNothingThatWasMeantForTheLast() throws IOException {
        try (HostFile host = new HostFile(terminal.port())) {
            terminal.write(new byte[6000], 0, 6000);
            assertEquals(100, host.read(100).length);
        }
        terminal.dropUnread();
        try (HostFile host = new HostFile(terminal.port())) {
            terminal.write(new byte[] {42}, 0, 1);
            assertArrayEquals(new byte[] {42}, host.read(1));
            assertEquals(0, host.waiting());
        }
    }

    @Test
    void saysWhenThereIsNoRoomAndWhenThereIsAgain() throws IOException {
        try (HostFile host = new HostFile(terminal.port())) {
            byte[] sent = new byte[4096];
            int taken = 0;
            int count;
            while ((count = terminal.write(sent, 0, sent.length)) > 0) {
                taken += count;
                assertTrue(taken < 1 << 20, "a host that reads nothing lets it fill");
            }
            assertFalse(terminal.await(true, 0).room());
            assertEquals(taken, host.read(taken).length);
            assertTrue(terminal.await(true, LONGEST.toNanos()).room());
        }
    }

    @Test
    void wakesForBytes() throws IOException {
        try (HostFile host = new HostFile(terminal.port())) {
            assertFalse(terminal.await(false, 1_000_000).bytes());
            host.write(new byte[] {7});
            assertTrue(terminal.await(false, LONGEST.toNanos()).bytes());
        }
    }

    @Test
    void hasTheSpeedThatItsPortWasGiven() throws Exception {
        assertEquals(500_000, terminal.baud());
        Process setter = new ProcessBuilder("stty", "-F", terminal.port().toString(), "115200")
                .redirectErrorStream(true)
                .start();
        String said = new String(setter.getInputStream().readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
        assertEquals(0, setter.waitFor(), said);
        assertEquals(115_200, terminal.baud());
    }

    @Test
    void endsTheHostsReadingWhenItIsClosed() throws IOException {
        try (HostFile host = new HostFile(terminal.port())) {
            terminal.close();
            assertTrue(host.hasEnded());
            assertFalse(Files.exists(terminal.port()));
        }
        IOException refused = assertThrows(IOException.class, () -> terminal.hasHost());
        assertEquals("the pseudo-terminal " + terminal.port() + " is closed", refused.getMessage());
    }

    @Test
    void takesAnySpeed() throws IOException {
        try (PseudoTerminal odd = PseudoTerminal.open(123_457)) {
            assertEquals(123_457, odd.baud());
        }
        assertThrows(IllegalArgumentException.class, () -> PseudoTerminal.open(0));
    }
}
