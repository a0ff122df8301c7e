package snagbench.bench.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import org.junit.jupiter.api.Test;

class PortAccessTests {
    private static PortAccess access(String group, String mode, boolean listed) {
        return new PortAccess("root", group, PosixFilePermissions.fromString(mode), "anna", false, listed);
    }

    @Test
    void namesTheGroupThatMayAndHowToJoinIt() {
        assertEquals(
                "user anna may not open it: root and group dialout may (root:dialout, mode rw-rw----). Join that group:"
                        + " \"sudo usermod -a -G dialout anna\", then log out and in again",
                access("dialout", "rw-rw----", false).refusal(Path.of("/dev/ttyUSB0")));
        assertTrue(access("uucp", "rw-rw----", false)
                .refusal(Path.of("/dev/ttyACM0"))
                .contains("\"sudo usermod -a -G uucp anna\""));
    }

    @Test
    void saysWhenOnlyTheLoginIsTooOld() {
        assertEquals(
                "user anna may not open it: root and group dialout may (root:dialout, mode rw-rw----). The user is in"
                        + " that group by now, but logged in before: log out and in again",
                access("dialout", "rw-rw----", true).refusal(Path.of("/dev/ttyUSB0")));
    }

    @Test
    void sendsNobodyIntoAGroupThatDoesNotHelp() {
        String alone = access("dialout", "rw-------", false).refusal(Path.of("/dev/ttyS0"));
        assertTrue(alone.contains("root alone may"), alone);
        assertTrue(alone.contains("udev rule"), alone);
        assertFalse(alone.contains("usermod"), alone);
        String root = access("root", "rw-rw----", false).refusal(Path.of("/dev/ttyS0"));
        assertTrue(root.contains("udev rule"), root);
        assertFalse(root.contains("usermod"), root);
    }

    @Test
    void knowsThatAVirtualRigBelongsToWhoeverServesIt() {
        String refusal = access("tty", "rw--w----", false).refusal(Path.of("/dev/pts/7"));
        assertTrue(refusal.contains("serve it as anna, or run this as root"), refusal);
    }

    @Test
    void readsTheSystemsListOfGroups() {
        List<String> lines = List.of("root:x:0:", "dialout:x:20:bert,anna", "tty:x:5:annabel", "broken", "uucp:x:10");
        assertTrue(PortAccess.isListed("anna", "dialout", lines));
        assertTrue(PortAccess.isListed("bert", "dialout", lines));
        assertFalse(PortAccess.isListed("anna", "tty", lines));
        assertFalse(PortAccess.isListed("anna", "uucp", lines));
        assertFalse(PortAccess.isListed("", "root", List.of("dialout:x:20:anna")));
    }

    @Test
    void readsARealDevice() throws IOException {
        PortAccess access = PortAccess.of(Path.of("/dev/null"));
        assertEquals("root", access.owner());
        assertEquals("everybody", access.who());
        assertTrue(access.allowed());
        assertEquals(System.getProperty("user.name"), access.user());
    }
}
