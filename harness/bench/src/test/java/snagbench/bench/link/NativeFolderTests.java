package snagbench.bench.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.jar.JarFile;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NativeFolderTests {
    /** A newer library may come with more builds, or name them anew. */
    @ParameterizedTest
    @CsvSource({"Linux, Linux/", "Mac OS X, OSX/"})
    void knowsAllBuildsThatTheLibraryHas(String osName, String prefix) throws Exception {
        Path jar = Path.of(SerialPort.class
                .getProtectionDomain()
                .getCodeSource()
                .getLocation()
                .toURI());
        try (JarFile file = new JarFile(jar.toFile())) {
            List<String> there = file.stream()
                    .map(entry -> entry.getName())
                    .filter(name -> name.startsWith(prefix) && !name.endsWith("/"))
                    .sorted()
                    .toList();
            assertEquals(
                    there,
                    NativeFolder.Build.of(osName).resources().stream().sorted().toList());
        }
    }

    @Test
    void isNobodyElsesAndLeavesNothing() throws IOException {
        Path path;
        try (NativeFolder folder = NativeFolder.unpack(SerialPort.class)) {
            path = folder.path();
            assertEquals("rwx------", PosixFilePermissions.toString(Files.getPosixFilePermissions(path)));
            try (Stream<Path> all = Files.walk(path)) {
                List<Path> files = all.filter(Files::isRegularFile).toList();
                assertFalse(files.isEmpty());
                for (Path file : files) {
                    assertTrue(Files.isExecutable(file), file.toString());
                }
            }
        }
        assertFalse(Files.exists(path));
    }
}
