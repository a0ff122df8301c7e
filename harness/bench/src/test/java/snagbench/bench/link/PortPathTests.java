package snagbench.bench.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PortPathTests {
    private static final List<String> KNOWN = List.of("/dev/ttyACM0", "/dev/ttyS0", "/dev/ttyUSB1");

    @TempDir
    private Path folder;

    private static String refusal(String given, List<String> known) {
        return LinkContract.failure(() -> PortPath.device(given, () -> known));
    }

    @Test
    void namesTheNearestPortsOfOneThatIsNotThere() {
        assertEquals(
                "serial port /no/such/dir/ttyS0 does not exist; nearest that are there: /dev/ttyS0, /dev/ttyACM0,"
                        + " /dev/ttyUSB1",
                refusal("/no/such/dir/ttyS0", KNOWN));
        assertEquals(
                "serial port ttyUSB1 does not exist; nearest that are there: /dev/ttyUSB1, /dev/ttyS0, /dev/ttyACM0",
                refusal("ttyUSB1", KNOWN));
        assertEquals(
                "serial port /dev/ttyUSB7 does not exist; no serial port is there at all: is the cable in, and a data"
                        + " cable?",
                refusal("/dev/ttyUSB7", List.of()));
        assertTrue(refusal("", KNOWN).contains("does not exist"));
        assertTrue(refusal("\0", KNOWN).contains("cannot be the path of a serial port"));
    }

    @Test
    void tellsOfPseudoTerminalsBesideOneThatIsNotThere() throws IOException {
        try (Device device = new Device()) {
            String said = refusal("/dev/pts/123456", List.of());
            assertTrue(said.contains(device.port().toString()), said);
        }
    }

    @Test
    void followsLinks() throws Exception {
        try (Device device = new Device()) {
            Path first = Files.createSymbolicLink(folder.resolve("first"), device.port());
            Path second = Files.createSymbolicLink(folder.resolve("second"), first);
            assertEquals(device.port(), PortPath.device(second.toString(), List::of));
        }
    }

    @Test
    void tellsWhereALinkLeadsThatLeadsNowhere() throws IOException {
        Path link = Files.createSymbolicLink(folder.resolve("usb-bench"), Path.of("/dev/ttyUSB9"));
        assertTrue(refusal(link.toString(), KNOWN)
                .startsWith("serial port " + link
                        + " is a link to /dev/ttyUSB9, which does not exist: is the cable in?; nearest"));
    }

    @Test
    void takesNeitherFilesNorFolders() throws IOException {
        Path file = Files.createFile(folder.resolve("ttyS0"));
        assertTrue(refusal(file.toString(), KNOWN).startsWith(file + " is a file, not a serial port; nearest"));
        assertTrue(refusal(folder.toString(), KNOWN).startsWith(folder + " is a folder, not a serial port; nearest"));
    }

    @ParameterizedTest
    @CsvSource({"'', abc, 3", "kitten, sitting, 3", "ttyUSB0, ttyUSB0, 0", "ttyUSB0, ttyUSB1, 1", "ab, ba, 2"})
    void countsLetters(String a, String b, int letters) {
        assertEquals(letters, PortPath.distance(a, b));
        assertEquals(letters, PortPath.distance(b, a));
    }
}
