package snagbench.bench.serve;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import snagbench.probe.VirtualRig;
import snagbench.wire.Hello;
import snagbench.wire.Keep;
import snagbench.wire.Open;
import snagbench.wire.Record;
import snagbench.wire.Watch;

/** The shuttle in real time on a real pseudo-terminal; the host opens it as a plain file. */
@Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class ServedRigTests {
    private static final Duration LONGEST = Duration.ofSeconds(20);

    @TempDir
    private Path folder;

    private static void set(Path port, int baud) throws Exception {
        Process setter = new ProcessBuilder("stty", "-F", port.toString(), String.valueOf(baud))
                .redirectErrorStream(true)
                .start();
        String said = new String(setter.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(0, setter.waitFor(), said);
    }

    /** The greeting at boot has found nobody. */
    private static HostFile openedAfterBoot(Serving serving) throws IOException {
        serving.awaitLog("boot 1");
        return new HostFile(serving.port());
    }

    @Test
    void answersAHostThatComesLateAndHandsItNothingStale() throws Exception {
        try (Serving serving = Serving.plain();
                HostFile file = openedAfterBoot(serving)) {
            WireHost host = WireHost.on(file, 11);
            serving.awaitLog("host is there");
            Hello hello = host.open();
            assertEquals(11, hello.session);
            assertEquals(hello, host.replies.get(0));
            assertEquals(0, host.reader.badFrames());
        }
    }

    @Test
    void goesOnWithoutItsHostAndGivesTheNextNothingThatWasMeantForTheLast() throws Exception {
        try (Serving serving = Serving.plain()) {
            int lastTick;
            try (HostFile file = new HostFile(serving.port())) {
                WireHost host = WireHost.on(file, 11);
                host.open();
                host.done(new Watch(1, 0, Shuttle.STEP, Shuttle.POSITION));
                assertTrue(host.until(() -> host.all(Record.class).size() > 20));
                // Some more lie in the port when it leaves.
                await().atMost(LONGEST).until(() -> file.waiting() > 200);
                host.hear();
                lastTick = host.all(Record.class).get(host.all(Record.class).size() - 1).tick;
            }
            serving.awaitLog("host has left");
            long left = serving.rigMicros();
            await().atMost(LONGEST).until(() -> serving.rigMicros() > left + 500_000);
            try (HostFile file = new HostFile(serving.port())) {
                WireHost host = WireHost.on(file, 12);
                assertTrue(host.until(() -> host.all(Record.class).size() > 5));
                int firstTick = host.all(Record.class).get(0).tick;
                assertTrue(firstTick - lastTick > 80, "from tick " + lastTick + " to " + firstTick);
                assertEquals(0, host.reader.badFrames());
                assertEquals(12, host.open().session);
            }
        }
    }

    @Test
    void makesItsSafeStopWhenTheHostVanishes() throws Exception {
        try (Serving serving = Serving.plain()) {
            try (HostFile file = new HostFile(serving.port())) {
                WireHost host = WireHost.on(file, 11);
                host.open();
                host.done(new Keep(300, 0));
            }
            serving.awaitLog("lease ran out");
            serving.awaitLog("safe stop done, lease");
            String log = serving.log();
            assertTrue(log.indexOf("lease taken") < log.indexOf("host has left"));
            assertTrue(log.indexOf("host has left") < log.indexOf("lease ran out"));
            assertTrue(log.indexOf("lease ran out") < log.indexOf("safe stop begun, lease"));
            assertTrue(log.indexOf("safe stop begun, lease") < log.indexOf("safe stop done, lease"));
        }
    }

    /** The rig is never ahead of the wall. How far it may be behind is the system's affair: a quarter is coarse enough. */
    @Test
    void keepsTheWallsTime() throws Exception {
        long wallBefore = System.nanoTime();
        try (Serving serving = Serving.plain();
                HostFile file = new HostFile(serving.port())) {
            WireHost host = WireHost.on(file, 11);
            host.open();
            host.done(new Watch(1, 0, Shuttle.STEP));
            int from = host.all(Record.class).size();
            long wallFrom = System.nanoTime();
            assertTrue(host.until(() -> System.nanoTime() - wallFrom > 2_000_000_000L));
            long rig = serving.rigMicros();
            long wall = (System.nanoTime() - wallBefore) / 1000;
            assertTrue(rig <= wall, rig + " us of the rig in " + wall + " us of the wall");
            assertTrue(rig > wall / 4, rig + " us of the rig in " + wall + " us of the wall");
            var records = host.all(Record.class);
            for (int i = from + 1; i < records.size(); i++) {
                int loop = records.get(i).micros - records.get(i - 1).micros;
                assertEquals(1, records.get(i).tick - records.get(i - 1).tick, "no tick is missing");
                assertTrue(loop >= 5000 && loop <= 5200, "a loop of " + loop + " us on the rig's own clock");
            }
        }
    }

    @Test
    void understandsAHostAtItsSpeedOnly() throws Exception {
        try (Serving serving = Serving.with(500_000, LineFaults.NONE, Optional.empty(), Optional.empty());
                HostFile file = openedAfterBoot(serving)) {
            set(serving.port(), 115_200);
            WireHost deaf = WireHost.on(file, 11);
            for (int i = 0; i < 5; i++) {
                deaf.tell(new Open(1, 1));
            }
            serving.awaitLog("port is set to 115200 baud; the rig's line has 500000");
            long heard = serving.rigMicros();
            assertTrue(deaf.until(() -> serving.rigMicros() > heard + 200_000));
            assertEquals(0, deaf.replies.size());
            assertFalse(serving.log().contains("session 11"));

            set(serving.port(), 500_000);
            WireHost host = WireHost.on(file, 12);
            assertEquals(12, host.open().session);
            serving.awaitLog("port is set to 500000 baud");
        }
    }

    @Test
    void sendsGarbageToAHostThatChangesItsSpeed() throws Exception {
        try (Serving serving = Serving.with(500_000, LineFaults.NONE, Optional.empty(), Optional.empty());
                HostFile file = new HostFile(serving.port())) {
            WireHost host = WireHost.on(file, 11);
            host.open();
            host.done(new Watch(1, 0, Shuttle.STEP, Shuttle.POSITION, Shuttle.CURRENT));
            assertTrue(host.until(() -> host.all(Record.class).size() > 20));
            set(serving.port(), 57_600);
            serving.awaitLog("port is set to 57600 baud");
            host.hear();
            long bad = host.reader.badFrames();
            int good = host.all(Record.class).size();
            long seen = serving.rigMicros();
            assertTrue(host.until(() -> serving.rigMicros() > seen + 1_000_000));
            assertTrue(host.all(Record.class).size() - good <= 10, "only what was on its way is good");
            assertTrue(host.reader.badFrames() >= bad);
            set(serving.port(), 500_000);
            int then = host.all(Record.class).size();
            assertTrue(host.until(() -> host.all(Record.class).size() > then + 20), "it finds its feet again");
        }
    }

    @Test
    void worksOverABadLineForAHostThatAsksAgain() throws Exception {
        LineFaults bad = new LineFaults(0.002, 0.002, 0.002, 3000, 4000);
        try (Serving serving = Serving.with(500_000, bad, Optional.empty(), Optional.empty());
                HostFile file = new HostFile(serving.port())) {
            WireHost host = WireHost.on(file, 11);
            host.open();
            for (int i = 0; i < 5; i++) {
                host.tell(new Watch(1, 0, Shuttle.STEP, Shuttle.POSITION));
            }
            assertTrue(host.until(() -> host.all(Record.class).size() > 300 && host.reader.badFrames() > 5));
        }
    }

    @Test
    void losesItsPortWhenTheCableIsPulledAndHasItAgainAtTheSamePath() throws Exception {
        Path link = folder.resolve("shuttle");
        try (Serving serving = Serving.with(0, LineFaults.NONE, Optional.of(link), Optional.empty())) {
            assertEquals(link, serving.port());
            try (HostFile file = new HostFile(link)) {
                WireHost host = WireHost.on(file, 11);
                host.open();
                serving.served().pullCable(600_000);
                await().atMost(LONGEST).until(file::hasEnded);
            }
            serving.awaitLog("has gone");
            await().atMost(LONGEST).until(() -> Files.exists(link, LinkOption.NOFOLLOW_LINKS));
            try (HostFile file = new HostFile(link)) {
                assertEquals(12, WireHost.on(file, 12).open().session);
            }
            String log = serving.log();
            assertEquals(1, log.split("boot 1", -1).length - 1, "the rig itself ran on");
            assertTrue(log.indexOf("has gone") < log.lastIndexOf("is there"));
        }
        assertFalse(Files.exists(link, LinkOption.NOFOLLOW_LINKS));
    }

    @Test
    void pullsTheCableSoLongAfterItsFirstHost() throws Exception {
        ServedRig.Disconnection once = new ServedRig.Disconnection(300_000, Long.MAX_VALUE);
        try (Serving serving = Serving.with(0, LineFaults.NONE, Optional.empty(), Optional.of(once))) {
            serving.awaitLog("boot 1");
            assertFalse(serving.log().contains("has gone"));
            Path port = serving.port();
            try (HostFile file = new HostFile(port)) {
                await().atMost(LONGEST).until(file::hasEnded);
            }
            serving.awaitLog("has gone");
            List<String> lines = serving.log().lines().toList();
            double came = seconds(lines, "host is there");
            double went = seconds(lines, "has gone");
            assertTrue(
                    went - came >= 0.3 && went - came < 0.8, "from " + came + " s to the round after " + went + " s");
            assertFalse(Files.exists(port));
        }
    }

    private static double seconds(List<String> lines, String text) {
        for (String line : lines) {
            if (line.contains(text)) {
                return Double.parseDouble(line.substring(0, line.indexOf('.') + 7));
            }
        }
        throw new AssertionError("no line with " + text);
    }

    /** With a wall that runs fifty times as fast. */
    @Test
    void throwsAwayWhatAHostDoesNotReadAndSaysSo() throws Exception {
        long origin = System.nanoTime();
        try (Serving serving = Serving.at(() -> origin + 50 * (System.nanoTime() - origin));
                HostFile file = new HostFile(serving.port())) {
            WireHost host = WireHost.on(file, 11);
            host.open();
            host.tell(new Watch(1, 0, 0, 1, 2, 5, 6, 7, 8, 9, 10));
            serving.awaitLog("host does not read");
            assertTrue(host.until(() -> serving.log().contains("host reads again")));
            int then = host.all(Record.class).size();
            assertTrue(host.until(() -> host.all(Record.class).size() > then + 20), "records come whole again");
        }
    }

    @Test
    void letsAHostThatSendsMuchWait() throws Exception {
        try (Serving serving = Serving.with(115_200, LineFaults.NONE, Optional.empty(), Optional.empty());
                HostFile file = new HostFile(serving.port())) {
            long from = serving.rigMicros();
            // 40 KB are 3.5 s of line, and some 20 KB fit into the port: writing them takes the rest at least.
            file.write(new byte[40_000]);
            long took = serving.rigMicros() - from;
            assertTrue(took > 500_000, "taken in " + took + " us of the rig");
            WireHost host = WireHost.on(file, 11);
            assertEquals(11, host.open().session);
        }
    }

    @Test
    void namesARigThatFailsInItsOwnCode() throws Exception {
        VirtualRig failing = new VirtualRig() {
            @Override
            public long nowMicros() {
                return 0;
            }

            @Override
            public void send(byte[] bytes, int from, int length) {}

            @Override
            public int receive(byte[] into) {
                return 0;
            }

            @Override
            public void runUntil(long micros) {
                throw new IllegalStateException("a wheel came off");
            }
        };
        FaultyRig rig = new FaultyRig(failing, 0, LineFaults.NONE, 1);
        RigLog log = new RigLog(line -> {});
        try (ServedRig served =
                ServedRig.open(rig, Optional.empty(), Optional.empty(), System::nanoTime, log, path -> {})) {
            IOException failure = assertThrows(IOException.class, () -> served.run(() -> false));
            String message = String.valueOf(failure.getMessage());
            String start =
                    "the virtual rig failed in its own code: java.lang.IllegalStateException: a wheel came off at ";
            assertTrue(message.startsWith(start), message);
            assertInstanceOf(IllegalStateException.class, failure.getCause());
        }
    }

    @Test
    void runsWithoutAHostAndEndsWhenTold() throws Exception {
        Serving serving = Serving.plain();
        await().atMost(LONGEST).until(() -> serving.rigMicros() > 300_000);
        serving.close();
        assertFalse(Files.exists(serving.port()));
        assertEquals(0, serving.log().split("host is there", -1).length - 1);
    }
}
