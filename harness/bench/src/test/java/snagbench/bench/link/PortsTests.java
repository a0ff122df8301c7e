package snagbench.bench.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PortsTests {
    @TempDir
    private Path folder;

    /** Machines differ in what they have; whatever there is must be whole, in order, and there. */
    @Test
    void listsPortsThatAreThere() throws LinkException {
        List<Ports.Port> ports = Ports.list();
        assertEquals(
                ports.stream().map(Ports.Port::path).sorted().toList(),
                Ports.paths().stream().sorted().toList());
        for (Ports.Port port : ports) {
            assertTrue(Files.exists(Path.of(port.path())), port.toString());
            assertFalse(port.description().isBlank(), port.toString());
            assertTrue(port.access().isPresent(), port.toString());
            assertEquals(port.vendorId().isPresent(), port.productId().isPresent(), port.toString());
        }
    }

    @Test
    void leavesAnOpenLinkAlone() throws Exception {
        try (Device device = new Device();
                SerialLink link = device.connect()) {
            for (int i = 0; i < 5; i++) {
                Ports.list();
                device.says(new byte[] {(byte) i});
                assertEquals(i, LinkContract.receive(link, 1, 1)[0]);
            }
        }
    }

    @Test
    void tellsWhetherAPortIsThere() throws Exception {
        try (Device device = new Device()) {
            assertTrue(Ports.isThere(device.port().toString()));
            device.dies();
            assertFalse(Ports.isThere(device.port().toString()));
        }
        assertFalse(Ports.isThere("\0"));
    }

    @Test
    void findsTheNameThatStays() throws Exception {
        try (Device one = new Device();
                Device other = new Device()) {
            Path stable = Files.createSymbolicLink(folder.resolve("usb-maker_board_0042"), one.port());
            Files.createSymbolicLink(folder.resolve("usb-gone"), Path.of("/dev/ttyUSB99"));
            assertEquals(Optional.of(stable.toString()), Ports.stableName(one.port(), folder));
            assertEquals(Optional.empty(), Ports.stableName(other.port(), folder));
            assertEquals(Optional.empty(), Ports.stableName(one.port(), folder.resolve("none")));
            // The number of its pseudo-terminal may soon be another's, which may go while the folder is cleared.
            Files.delete(stable);
        }
    }
}
