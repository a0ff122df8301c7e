package snagbench.bench.link;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.Random;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The traps of a serial line, on real pseudo-terminals. */
@Timeout(60)
class SerialLinkTests {
    private static final long LONGEST_MICROS = Device.LONGEST.toMillis() * 1000;
    private static final Duration NEVER = Duration.ofHours(1);

    @TempDir
    private Path folder;

    private Device device;

    @BeforeEach
    void plugIn() throws IOException {
        device = new Device();
    }

    @AfterEach
    void pullOut() {
        device.close();
    }

    private static String refusal(String port) {
        return LinkContract.failure(() -> SerialLink.open(port, SerialSettings.at(Device.BAUD), System::nanoTime));
    }

    // --- opening

    @Test
    void opensNoOtherPortThanTheOneAskedFor() {
        assertTrue(refusal("/no/such/dir/ttyS0").startsWith("serial port /no/such/dir/ttyS0 does not exist; "));
        assertTrue(refusal("null").startsWith("serial port null does not exist; "));
    }

    @Test
    void opensByALinkAndKeepsItsName() throws Exception {
        Path link = Files.createSymbolicLink(folder.resolve("usb-bench"), device.port());
        try (SerialLink opened = SerialLink.open(link.toString(), SerialSettings.at(Device.BAUD), System::nanoTime)) {
            assertEquals("serial port " + link + " (500000 baud)", opened.name());
            opened.send(new byte[] {7}, 1);
            assertArrayEquals(new byte[] {7}, device.heard(1));
        }
    }

    @Test
    void refusesADeviceThatIsNoSerialPort() {
        assertEquals(
                "serial port /dev/null cannot be opened: it is a device, but not a serial port", refusal("/dev/null"));
    }

    @Test
    void setsTheBaudRate() throws Exception {
        for (int baud : new int[] {9600, 115_200, 500_000, 3_000_000, 250_000}) {
            try (SerialLink link = device.connect(SerialSettings.at(baud))) {
                assertEquals(baud, device.baud());
                assertTrue(link.name().endsWith(" (" + baud + " baud)"), link.name());
            }
        }
    }

    @Test
    void throwsAwayWhatTheDeviceSaidBefore() throws Exception {
        device.says("to the last one".getBytes(java.nio.charset.StandardCharsets.US_ASCII));
        try (SerialLink link = device.connect()) {
            assertEquals(0, link.receive(new byte[100], link.nowMicros() + 50_000));
            device.says(new byte[] {1});
            assertArrayEquals(new byte[] {1}, LinkContract.receive(link, 1, 100));
        }
        try (SerialLink link = device.connect()) {
            device.says(new byte[] {2, 3});
            await().atMost(Device.LONGEST).until(() -> link.receive(new byte[1], 0) == 1);
        }
        try (SerialLink link = device.connect()) {
            device.says(new byte[] {4});
            assertArrayEquals(new byte[] {4}, LinkContract.receive(link, 1, 100));
        }
    }

    @Test
    void isOneLinkAtATime() throws Exception {
        try (SerialLink link = device.connect()) {
            assertEquals(
                    "serial port " + device.port()
                            + " cannot be opened: this program has it open already; one rig, one connection",
                    refusal(device.port().toString()));
            link.send(new byte[] {7}, 1);
            assertArrayEquals(new byte[] {7}, device.heard(1));
        }
        try (SerialLink again = device.connect()) {
            again.send(new byte[] {8}, 1);
            assertArrayEquals(new byte[] {7, 8}, device.heard(2));
        }
    }

    // --- time and bytes

    @Test
    void hasTheClockThatItIsGiven() throws Exception {
        AtomicLong nanos = new AtomicLong(5_000_000_000L);
        try (SerialLink link = SerialLink.open(device.port().toString(), SerialSettings.at(Device.BAUD), nanos::get)) {
            assertEquals(0, link.nowMicros());
            nanos.addAndGet(1_999);
            assertEquals(1, link.nowMicros());
            nanos.addAndGet(Duration.ofDays(1).toNanos());
            assertEquals(86_400_000_001L, link.nowMicros());
        }
    }

    @Test
    void losesNothingWhileTheSessionLooksAway() throws Exception {
        byte[] said = new byte[300_000];
        new Random(3).nextBytes(said);
        try (SerialLink link = device.connect()) {
            device.says(said);
            assertArrayEquals(said, LinkContract.receive(link, said.length, 4096));
        }
    }

    @Test
    void makesTheDeviceWaitWhenNothingFitsAnyMore() throws Exception {
        byte[] said = new byte[1_300_000];
        new Random(4).nextBytes(said);
        try (SerialLink link = device.connect()) {
            CompletableFuture<Void> saying = CompletableFuture.runAsync(() -> device.says(said));
            await().during(Duration.ofMillis(300)).atMost(Device.LONGEST).until(() -> !saying.isDone());
            assertArrayEquals(said, LinkContract.receive(link, said.length, 4096));
            saying.get(20, TimeUnit.SECONDS);
        }
    }

    @Test
    void waitsAsLongAsALinkCan() throws Exception {
        try (SerialLink link = device.connect()) {
            byte[] into = new byte[10];
            CompletableFuture<Integer> bytes = CompletableFuture.supplyAsync(() -> {
                try {
                    return link.receive(into, Long.MAX_VALUE);
                } catch (LinkException e) {
                    throw new AssertionError(e);
                }
            });
            await().during(Duration.ofMillis(150)).atMost(Device.LONGEST).until(() -> !bytes.isDone());
            device.says(new byte[] {9});
            assertEquals(1, bytes.get(20, TimeUnit.SECONDS));
            assertEquals(9, into[0]);
        }
    }

    // --- losing the line

    @Test
    void receivesWhatHadComeBeforeItTellsOfTheLoss() throws Exception {
        byte[] said = new byte[5000];
        new Random(5).nextBytes(said);
        try (SerialLink link = device.connect()) {
            device.says(said);
            byte[] first = LinkContract.receive(link, said.length - 1, 4096);
            assertArrayEquals(Arrays.copyOf(said, said.length - 1), first);
            device.dies();
            byte[] last = new byte[10];
            assertEquals(1, link.receive(last, link.nowMicros() + LONGEST_MICROS));
            assertEquals(said[said.length - 1], last[0]);
            String lost = LinkContract.failure(() -> link.receive(last, link.nowMicros() + LONGEST_MICROS));
            assertTrue(lost.startsWith(link.name() + " is gone: the cable was pulled"), lost);
            assertEquals(lost, LinkContract.failure(() -> link.send(new byte[1], 1)));
        }
    }

    @Test
    void endsAWaitWhenTheDeviceGoes() throws Exception {
        try (SerialLink link = device.connect()) {
            CompletableFuture<String> waiting = CompletableFuture.supplyAsync(
                    () -> LinkContract.failure(() -> link.receive(new byte[10], Long.MAX_VALUE)));
            await().during(Duration.ofMillis(50)).atMost(Device.LONGEST).until(() -> !waiting.isDone());
            device.dies();
            assertTrue(waiting.get(20, TimeUnit.SECONDS).contains(" is gone: "));
        }
    }

    @Test
    void noticesInAWriteThatTheDeviceIsGone() throws Exception {
        for (int i = 0; i < 20; i++) {
            try (Device one = new Device();
                    SerialLink link = one.connect()) {
                one.dies();
                String lost = LinkContract.failure(() -> link.send(new byte[32], 32));
                assertTrue(lost.startsWith(link.name() + " is gone: "), lost);
            }
        }
    }

    @Test
    void letsGoOfAPortThatIsGone() throws Exception {
        try (SerialLink link = device.connect()) {
            assertEquals(1, openFiles(device.port()));
            device.dies();
            assertThrows(LinkException.class, () -> link.receive(new byte[1], Long.MAX_VALUE));
            await().atMost(Device.LONGEST).until(() -> openFiles(device.port()) == 0);
        }
    }

    /** How many files of this process lead to the port, there or gone. */
    private static long openFiles(Path port) throws IOException {
        try (Stream<Path> files = Files.list(Path.of("/proc/self/fd"))) {
            return files.filter(file -> leadsTo(file, port)).count();
        }
    }

    private static boolean leadsTo(Path file, Path port) {
        try {
            String target = Files.readSymbolicLink(file).toString();
            return target.equals(port.toString()) || target.equals(port + " (deleted)");
        } catch (IOException e) {
            return false;
        }
    }

    @Test
    void givesUpOnADeviceThatTakesNoBytes() throws Exception {
        SerialSettings settings = new SerialSettings(Device.BAUD, Duration.ofMillis(300), Duration.ofSeconds(1));
        try (SerialLink link = device.connect(settings)) {
            String stuck = LinkContract.failure(() -> sendUntilItFails(link, new AtomicInteger()));
            assertEquals(
                    link.name() + " has taken no bytes for 300 ms: the controller does not read its line, or does not"
                            + " run; the port is closed",
                    stuck);
            await().atMost(Device.LONGEST).until(() -> openFiles(device.port()) == 0);
            assertEquals(stuck, LinkContract.failure(() -> link.receive(new byte[1], Long.MAX_VALUE)));
        }
        assertFalse(device.hasHost());
    }

    private static void sendUntilItFails(SerialLink link, AtomicInteger sent) throws LinkException {
        byte[] some = new byte[1000];
        while (sent.get() < 10_000_000) {
            link.send(some, some.length);
            sent.addAndGet(some.length);
        }
    }

    @Test
    void countsTheTimeOfAWriteOnItsOwnClock() throws Exception {
        AtomicLong nanos = new AtomicLong();
        AtomicInteger sent = new AtomicInteger();
        SerialSettings settings = new SerialSettings(Device.BAUD, NEVER, Duration.ofSeconds(1));
        try (SerialLink link = SerialLink.open(device.port().toString(), settings, nanos::get)) {
            CompletableFuture<String> stuck =
                    CompletableFuture.supplyAsync(() -> LinkContract.failure(() -> sendUntilItFails(link, sent)));
            await().during(Duration.ofMillis(400)).atMost(Device.LONGEST).until(() -> !stuck.isDone());
            nanos.addAndGet(NEVER.toNanos() - 1);
            await().during(Duration.ofMillis(400)).atMost(Device.LONGEST).until(() -> !stuck.isDone());
            nanos.addAndGet(1);
            assertTrue(stuck.get(20, TimeUnit.SECONDS).contains(" has taken no bytes for 3600000 ms"));
            assertTrue(sent.get() < 100_000, sent + " bytes fit into a pseudo-terminal");
        }
    }

    // --- closing

    @Test
    void bringsOutTheLastWordsBeforeItCloses() throws Exception {
        byte[] words = new byte[64];
        for (int i = 0; i < 40; i++) {
            try (Device one = new Device()) {
                SerialLink link = one.connect();
                new Random(i).nextBytes(words);
                link.send(words, words.length);
                link.close();
                assertArrayEquals(words, one.heard(words.length), "close number " + i);
            }
        }
    }

    @Test
    void canBeClosedByAnotherThreadThanTheOneThatWaits() throws Exception {
        SerialLink link = device.connect();
        CompletableFuture<String> waiting = CompletableFuture.supplyAsync(
                () -> LinkContract.failure(() -> link.receive(new byte[10], Long.MAX_VALUE)));
        await().during(Duration.ofMillis(50)).atMost(Device.LONGEST).until(() -> !waiting.isDone());
        link.close();
        assertEquals("the link to " + link.name() + " is closed", waiting.get(20, TimeUnit.SECONDS));
        assertEquals(0, openFiles(device.port()));
    }

    @Test
    void canBeClosedWhileAWriteHangs() throws Exception {
        SerialSettings settings = new SerialSettings(Device.BAUD, NEVER, Duration.ofSeconds(1));
        SerialLink link = device.connect(settings);
        AtomicInteger sent = new AtomicInteger();
        CompletableFuture<String> stuck =
                CompletableFuture.supplyAsync(() -> LinkContract.failure(() -> sendUntilItFails(link, sent)));
        await().during(Duration.ofMillis(400)).atMost(Device.LONGEST).until(() -> !stuck.isDone());
        link.close();
        assertEquals("the link to " + link.name() + " is closed", stuck.get(20, TimeUnit.SECONDS));
        assertEquals(0, openFiles(device.port()));
    }

    @Test
    void closesAsCarefullyWhenItsThreadWasInterrupted() throws Exception {
        SerialLink link = device.connect();
        link.send(new byte[] {7}, 1);
        Thread.currentThread().interrupt();
        link.close();
        assertTrue(Thread.interrupted(), "the interruption is still known");
        assertEquals(0, openFiles(device.port()));
        assertArrayEquals(new byte[] {7}, device.heard(1));
    }

    @Test
    void tellsOfAnInterruptedWait() throws Exception {
        try (SerialLink link = device.connect()) {
            Thread.currentThread().interrupt();
            assertEquals(
                    "waiting on " + link.name() + " was interrupted",
                    LinkContract.failure(() -> link.receive(new byte[1], Long.MAX_VALUE)));
            assertTrue(Thread.interrupted(), "the interruption is still known");
        }
    }

    @Test
    void leavesNoThreadBehind() throws Exception {
        String name = "serial reader " + device.port();
        try (SerialLink link = device.connect()) {
            assertEquals(1, threads(name));
            assertTrue(link.others().isEmpty());
        }
        assertEquals(0, threads(name));
    }

    private static long threads(String name) {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(thread -> thread.getName().equals(name))
                .count();
    }
}
