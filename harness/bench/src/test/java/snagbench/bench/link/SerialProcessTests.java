package snagbench.bench.link;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What several processes do to each other over a serial port, and what the serial library does to a process. */
@Timeout(180)
class SerialProcessTests {
    private static final int HANGUP = 1;

    @TempDir
    private Path folder;

    @Test
    void saysWhichProgramHasThePort() throws Exception {
        try (Device device = new Device();
                ChildJvm other = ChildJvm.start("hold", device.port().toString())) {
            assertEquals("holds serial port " + device.port() + " (500000 baud)", other.line());
            String refusal = LinkContract.failure(device::connect);
            assertEquals(
                    "serial port " + device.port() + " cannot be opened: it is in use by java (process " + other.pid()
                            + "). End that (another run of this harness, a terminal program, a serial monitor), and"
                            + " try again",
                    refusal);
            other.endOfInput();
            assertEquals(0, other.exitStatus());
            try (SerialLink link = device.connect()) {
                link.send(new byte[] {1}, 1);
                assertArrayEquals(new byte[] {1}, device.heard(1));
            }
        }
    }

    @Test
    void seesAProgramThatCaresForNoLock() throws Exception {
        try (Device device = new Device()) {
            Process thief = new ProcessBuilder("sleep", "60")
                    .redirectInput(device.port().toFile())
                    .start();
            try (SerialLink link = device.connect()) {
                await().atMost(Device.LONGEST)
                        .until(() -> link.others().equals(List.of("sleep (process " + thief.pid() + ")")));
                thief.destroyForcibly().waitFor();
                assertEquals(List.of(), link.others());
            } finally {
                thief.destroyForcibly();
            }
        }
    }

    /** Root may open anything, so then somebody else tries; anybody else is kept out by the mode. */
    @Test
    void saysWhyThisUserMayNotOpenAPort() throws Exception {
        boolean root = "root".equals(System.getProperty("user.name"));
        Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxrwxrwx"));
        List<Path> classPath = root ? ChildJvm.readableCopies(folder) : ChildJvm.classPath();
        List<String> before = root ? List.of("setpriv", "--reuid=65534", "--regid=65534", "--clear-groups") : List.of();
        try (Device device = new Device()) {
            Files.setPosixFilePermissions(
                    device.port(), PosixFilePermissions.fromString(root ? "rw-------" : "---------"));
            try (ChildJvm other = ChildJvm.start(
                    before, classPath, folder, "try", device.port().toString())) {
                String said = other.line();
                assertEquals(0, other.exitStatus(), said);
                assertTrue(
                        said.matches("serial port " + device.port() + ": user \\S+ may not open it: \\S+ alone may"
                                + " \\(\\S+:\\S+, mode (rw|--)-------\\)\\. A virtual rig is served to the user who"
                                + " serves it: serve it as \\S+, or run this as \\S+"),
                        said);
            }
        }
    }

    @Test
    void leavesSignalsAsTheyWere() throws Exception {
        try (Device device = new Device();
                ChildJvm other = signalled("signals", device)) {
            String before = other.line();
            assertTrue(before.startsWith("SigIgn:"), before);
            assertEquals(before, other.line());
        }
    }

    @Test
    void isEndedByAHangup() throws Exception {
        try (Device device = new Device();
                ChildJvm other = signalled("signals", device)) {
            other.line();
            other.line();
            other.signal("HUP");
            assertEquals(128 + HANGUP, other.exitStatus());
        }
    }

    @ParameterizedTest
    @CsvSource({"HUP, 1", "INT, 2", "TERM, 15"})
    void keepsThePortWhileTheProcessEndsUntilTheLastWordsAreOut(String signal, int number) throws Exception {
        try (Device device = new Device();
                ChildJvm other = signalled("let-go", device)) {
            assertEquals("waits", other.line());
            other.signal(signal);
            assertArrayEquals(new byte[] {'b', 'y', 'e'}, device.heard(3));
            assertEquals(128 + number, other.exitStatus());
        }
    }

    /** Under nohup, and in some build services, such signals are ignored from the start. */
    private ChildJvm signalled(String what, Device device) throws Exception {
        return ChildJvm.start(
                List.of("env", "--default-signal=HUP,INT,TERM"),
                ChildJvm.classPath(),
                folder,
                what,
                device.port().toString());
    }

    @Test
    void severalProcessesUnpackAtOnceWithoutHarm() throws Exception {
        unpackAtOnce(1);
    }

    @Test
    @Tag("long")
    void severalProcessesUnpackAtOnceWithoutHarmAgainAndAgain() throws Exception {
        unpackAtOnce(10);
    }

    private void unpackAtOnce(int rounds) throws Exception {
        for (int round = 0; round < rounds; round++) {
            List<ChildJvm> all = new ArrayList<>();
            try {
                for (int i = 0; i < 8; i++) {
                    all.add(ChildJvm.start(List.of(), ChildJvm.classPath(), folder, "own"));
                }
                for (ChildJvm one : all) {
                    assertEquals("done", one.line(), "in round " + round);
                    assertEquals(0, one.exitStatus(), "in round " + round);
                }
            } finally {
                all.forEach(ChildJvm::close);
            }
        }
        try (Stream<Path> left = Files.list(folder)) {
            assertEquals(
                    List.of(),
                    left.filter(file -> file.getFileName()
                                    .toString()
                                    .toLowerCase(java.util.Locale.ROOT)
                                    .contains("serial"))
                            .toList());
        }
    }
}
