package snagbench.bench.serve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PortLinkTests {
    private static final Path SEVEN = Path.of("/dev/pts/7");
    private static final Path NINE = Path.of("/dev/pts/9");

    @TempDir
    private Path folder;

    private static String message(IOException refused) {
        return String.valueOf(refused.getMessage());
    }

    @Test
    void pointsAtThePortAndThenAtTheNext() throws IOException {
        PortLink link = new PortLink(folder.resolve("rig"));
        link.point(SEVEN);
        assertEquals(SEVEN, Files.readSymbolicLink(link.path()));
        link.point(NINE);
        assertEquals(NINE, Files.readSymbolicLink(link.path()));
        link.remove(NINE);
        assertFalse(Files.exists(link.path(), LinkOption.NOFOLLOW_LINKS));
        try (var left = Files.list(folder)) {
            assertEquals(0, left.count());
        }
    }

    @Test
    void leavesALinkThatPointsElsewhereByNow() throws IOException {
        PortLink link = new PortLink(folder.resolve("rig"));
        link.point(NINE);
        link.remove(SEVEN);
        assertTrue(Files.isSymbolicLink(link.path()));
    }

    @Test
    void takesThePlaceOfNothingElse() throws IOException {
        Path file = Files.writeString(folder.resolve("file"), "mine");
        Path other = Files.createSymbolicLink(folder.resolve("other"), file);
        IOException first = assertThrows(IOException.class, () -> new PortLink(file).point(SEVEN));
        assertTrue(message(first).contains("is there already and is no link"), message(first));
        IOException second = assertThrows(IOException.class, () -> new PortLink(other).point(SEVEN));
        assertTrue(message(second).contains("is a link to " + file), message(second));
        assertEquals("mine", Files.readString(other));
    }

    @Test
    void saysWhyThereCanBeNone() {
        PortLink link = new PortLink(folder.resolve("no/such/rig"));
        IOException refused = assertThrows(IOException.class, () -> link.point(SEVEN));
        assertTrue(message(refused).startsWith("no link can be made at " + link.path()), message(refused));
    }
}
