package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.link.PortAccess;
import snagbench.bench.link.Ports;
import snagbench.bench.link.SerialLink;
import snagbench.bench.link.SerialSettings;
import snagbench.bench.serve.Serving;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionSettings;
import snagbench.bench.session.Shuttle;

/** The commands that look at ports and at what hangs on them. */
@Timeout(value = 120, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class PortCommandsTests {
    @TempDir
    Path empty = Path.of("");

    private static PortAccess access(boolean allowed) {
        return new PortAccess("root", "dialout", PosixFilePermissions.fromString("rw-rw----"), "ada", allowed, false);
    }

    private static Ports.Port port(Optional<PortAccess> access, List<String> users) {
        return new Ports.Port(
                "/dev/ttyUSB0",
                Optional.of("/dev/serial/by-id/usb-maker_board_42-if00"),
                "USB to UART",
                OptionalInt.of(0x10c4),
                OptionalInt.of(0xea60),
                Optional.of("Maker"),
                Optional.of("42"),
                access,
                users);
    }

    private static String text(Ports.Port port) {
        return String.join("\n", PortText.lines(List.of(port)));
    }

    @Test
    void aPortIsListedWithWhatHangsOnItAndItsNameThatStays() {
        String text = text(port(Optional.of(access(true)), List.of()));

        assertAll(
                () -> assertTrue(
                        text.startsWith("/dev/ttyUSB0  USB to UART, Maker, USB 10c4:ea60, serial number 42\n"), text),
                () -> assertTrue(text.contains("stays the same  /dev/serial/by-id/usb-maker_board_42-if00\n"), text),
                () -> assertTrue(text.contains("may open it     root and group dialout\n"), text),
                () -> assertTrue(text.endsWith("free for you    yes"), text));
    }

    @Test
    void aPortThatTheUserMayNotOpenIsListedWithTheCure() {
        String text = text(port(Optional.of(access(false)), List.of()));

        assertTrue(text.contains("free for you    no: user ada may not open it"), text);
        assertTrue(text.contains("sudo usermod -a -G dialout ada"), text);
    }

    @Test
    void aPortInUseIsListedWithWhoHasIt() {
        String text = text(port(Optional.of(access(true)), List.of("minicom (process 1234)")));

        assertTrue(text.contains("has it open     minicom (process 1234)"), text);
        assertTrue(text.contains("free for you    no: in use by minicom (process 1234); end that first"), text);
    }

    @Test
    void withoutAnyPortItIsSaidWhatToLookFor() {
        String text = String.join("\n", PortText.lines(List.of()));

        assertTrue(text.contains("No serial port is there. Is the cable in"), text);
    }

    /** Whatever this machine has: each port that the system knows is there, and none is left open. */
    @Test
    void theCommandListsThePortsOfThisMachine() throws Exception {
        Told told = Told.by("ports");

        assertEquals(0, told.status(), told::all);
        for (Ports.Port port : Ports.list()) {
            assertTrue(told.out().contains(port.path() + "  "), told::all);
        }
        assertFalse(told.out().isBlank());
    }

    @Test
    void overAPortARigTellsItselfAndHowItsClockAndItsLineDo() throws Exception {
        try (Serving served = Serving.of(Shuttle.rig("standard"), 500_000)) {
            BenchProcess.Ended ended = BenchProcess.run(
                    Bench.project(),
                    "identify",
                    "--port",
                    served.port().toString(),
                    "--baud",
                    "500000",
                    "--rig",
                    "seedling-shuttle",
                    "--for",
                    "1.5");

            assertEquals(0, ended.status(), ended::all);
            String out = ended.out();
            assertAll(
                    () -> assertTrue(out.contains("build       1.0, virtual"), ended::all),
                    () -> assertTrue(out.contains("reach.position"), ended::all),
                    () -> assertTrue(out.contains("stored      the same"), ended::all),
                    () -> assertTrue(figure(out, "offset +\\+(\\d+\\.\\d+) s") > 0, ended::all),
                    () -> assertTrue(
                            figure(out, "drift +([+-]\\d+) mill") <= figure(out, "millionths, within (\\d+)"),
                            ended::all),
                    () -> assertTrue(figure(out, "round trip +shortest (\\d+\\.\\d+) ms") > 0, ended::all),
                    () -> assertEquals(5.1, figure(out, "loop times +median (\\d+\\.\\d+) ms"), 0.1, ended::all),
                    () -> assertEquals(5.1, figure(out, "th loop mean (\\d+\\.\\d+) ms"), 0.1, ended::all),
                    () -> assertTrue(figure(out, "records +(\\d+) came") > 100, ended::all),
                    () -> assertTrue(out.contains("reach.position 0.0 mm"), ended::all),
                    () -> assertTrue(out.contains("step STOPPED"), ended::all));
            served.awaitLog("host has left");
            assertFalse(served.log().contains("lease taken"), "nothing moves:\n" + served.log());
        }
    }

    private static double figure(String text, String pattern) {
        Matcher found = Pattern.compile(pattern).matcher(text);
        assertTrue(found.find(), () -> pattern + " in\n" + text);
        return Double.parseDouble(found.group(1));
    }

    @Test
    void endedByTheUserItShowsWhatCameOfTheLine() throws Exception {
        try (Serving served = Serving.of(Shuttle.rig("standard"));
                BenchProcess process = BenchProcess.start(
                        Bench.project(), "identify", "--port", served.port().toString())) {
            org.awaitility.Awaitility.await()
                    .atMost(60, TimeUnit.SECONDS)
                    .until(() -> !process.isAlive() || process.outSoFar().contains("step STOPPED"));
            process.signal("INT");
            BenchProcess.Ended ended = process.ended();

            assertEquals(130, ended.status(), ended::all);
            assertTrue(ended.out().lastIndexOf("records ") > ended.out().lastIndexOf("step STOPPED"), ended::all);
        }
    }

    /** A rig that was told to record goes on recording for whoever opens the port next. */
    @Test
    void anotherBaudRateIsAskedFor() throws Exception {
        try (Serving served = Serving.of(Shuttle.rig("standard"), 115_200)) {
            try (SerialLink link =
                            SerialLink.open(served.port().toString(), SerialSettings.at(115_200), System::nanoTime);
                    RigSession session =
                            RigSession.open(link, SessionSettings.usual(3, 1000, () -> false), Optional.empty())) {
                assertEquals("1.0", session.hello().build);
            }
            Told ended = Told.by("identify", "--port", served.port().toString(), "--baud", "500000");

            assertEquals(4, ended.status(), ended::all);
            assertTrue(ended.err().contains("is the baud rate right?"), ended::all);
        }
    }

    @Test
    void aPortThatIsNotThereIsToldWithItsNearestNames() {
        Told told = Told.by("identify", "--port", "/no/such/dir/ttyS0");

        assertEquals(4, told.status(), told::all);
        assertTrue(told.err().contains("serial port /no/such/dir/ttyS0 does not exist; "), told::all);
    }

    @Test
    void optionsThatMakeNoSenseTogetherAreRefused() throws Exception {
        Path file = Files.writeString(empty.resolve("rig.yaml"), "rig: mine\nvirtual: seedling-shuttle\n");
        Told save = Told.by("identify", "--port", "/dev/null", "--save");
        assertEquals(2, save.status(), save::all);
        assertTrue(save.err().contains("--save goes with --rig"), save::all);

        Told baud = Told.by("identify", "--rig", file.toString(), "--baud", "9600");
        assertEquals(2, baud.status(), baud::all);
        assertTrue(baud.err().contains("--baud goes with --port"), baud::all);

        Told none = Told.by("identify", "--port", "/dev/null", "--baud", "0");
        assertEquals(2, none.status(), none::all);
        assertTrue(none.err().contains("--baud 0: wanted from 1"), none::all);
    }

    @Test
    void theRigsFileTellsThePort() throws Exception {
        Path file = Files.writeString(empty.resolve("rig.yaml"), "rig: mine\nport: /dev/ttyNONE7\n");
        Told told = Told.by("identify", "--rig", file.toString());

        assertEquals(4, told.status(), told::all);
        assertTrue(told.err().contains("serial port /dev/ttyNONE7 does not exist"), told::all);
    }

    @Test
    void whereThePortIsNotThereARunShowsNothingButThat() {
        Told told = Told.by(
                "run",
                Bench.project().resolve(Bench.PLANS + "first-light.plan.yaml").toString(),
                "--port",
                "/dev/nosuch",
                "--out",
                empty.resolve("results").toString());

        assertEquals(4, told.status(), told::all);
        assertEquals("", told.out());
        assertTrue(told.err().startsWith("snagbench: serial port /dev/nosuch does not exist"), told::all);
        assertTrue(told.err().endsWith("Nothing was run.\n"), told::all);
    }

    /** To the last byte what is recorded in process, with which the rig's clock, noise and start are the same. */
    @Test
    void aRecordingOverAPortIsThatInProcess() throws Exception {
        String rig = Bench.project().resolve(Bench.RIG).toString();
        List<String> args =
                List.of("record", "--rig", rig, "--send", "start-run", "--for", "1", "--seed", "5", "--trace");
        Told here = Told.in(empty, with(args, "here.trace"));
        assertEquals(0, here.status(), here::all);
        try (Serving served = Serving.of(Shuttle.rig("standard"))) {
            String port = served.port().toString();
            Told there = Told.in(empty, with(args, "there.trace", "--port", port));

            assertEquals(0, there.status(), there::all);
            assertTrue(there.out().contains(" (on " + port + " at 115200 baud), seed 5: "), there::all);
            assertTrue(there.out().contains(" 0 lost, "), there::all);
            served.awaitLog("safe stop done, let go");
            assertFalse(served.log().contains("latched"), served.log());
        }
        assertEquals(-1, Files.mismatch(empty.resolve("here.trace"), empty.resolve("there.trace")));
    }

    private static String[] with(List<String> args, String... more) {
        return Stream.concat(args.stream(), Stream.of(more)).toArray(String[]::new);
    }
}
