package snagbench.bench.link;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * A folder of this process alone (mode 700) with the serial library's native part. Left to itself, the library unpacks into
 * one folder for all, which everybody may write to, and processes that do so at the same time crash each other.
 */
final class NativeFolder implements AutoCloseable {
    /** Where the library looks first. */
    static final String PROPERTY = "jSerialComm.library.path";

    private final Path folder;

    private NativeFolder(Path folder) {
        this.folder = folder;
    }

    /** The library's own names: folder of the system, folders of the processors, file. */
    record Build(String system, List<String> processors, String file) {
        static Build of(String osName) {
            String name = osName.toLowerCase(Locale.ROOT);
            if (name.contains("mac")) {
                return new Build("OSX", List.of("aarch64", "x86_64", "x86"), "libjSerialComm.jnilib");
            }
            return new Build(
                    "Linux",
                    List.of("armv5", "armv6hf", "armv7hf", "armv8_32", "armv8_64", "ppc64le", "x86", "x86_64"),
                    "libjSerialComm.so");
        }

        List<String> resources() {
            return processors.stream()
                    .map(processor -> system + "/" + processor + "/" + file)
                    .toList();
        }
    }

    /**
     * Unpacks all builds for this system; the library chooses among them.
     *
     * @param owner class beside which the library's files lie
     * @throws IOException if there is no folder in which native code may be put and run; the message names a cure
     */
    static NativeFolder unpack(Class<?> owner) throws IOException {
        Build build = Build.of(System.getProperty("os.name", ""));
        List<Path> places = Stream.of("java.io.tmpdir", "user.home")
                .map(System::getProperty)
                .filter(place -> place != null && !place.isEmpty())
                .map(Path::of)
                .toList();
        StringBuilder tried = new StringBuilder();
        for (Path place : places) {
            String trouble;
            try {
                NativeFolder made = new NativeFolder(Files.createTempDirectory(place, "snagbench-serial-"));
                if (made.fill(owner, build)) {
                    return made;
                }
                made.close();
                trouble = "native code may not run there (mounted noexec)";
            } catch (IOException e) {
                trouble = e.toString();
            }
            tried.append(tried.length() == 0 ? "" : "; ")
                    .append(place)
                    .append(": ")
                    .append(trouble);
        }
        throw new IOException("found no folder for its native part (" + tried
                + "); set one with -Djava.io.tmpdir=FOLDER in JAVA_TOOL_OPTIONS");
    }

    /** False if the files could not be run from there. */
    private boolean fill(Class<?> owner, Build build) throws IOException {
        boolean runs = true;
        for (String resource : build.resources()) {
            Path file = folder.resolve(resource);
            Files.createDirectories(file.getParent());
            try (InputStream in = owner.getResourceAsStream("/" + resource)) {
                if (in == null) {
                    throw new IOException("the serial library has no " + resource);
                }
                Files.copy(in, file);
            }
            // On a file system mounted noexec the system denies this, whatever the mode.
            runs = file.toFile().setExecutable(true, true) && Files.isExecutable(file) && runs;
        }
        return runs;
    }

    Path path() {
        return folder;
    }

    /**
     * Removes the folder. Native code that is loaded stays loaded.
     */
    @Override
    public void close() {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(each);
            }
        } catch (IOException e) {
            // It is a temporary folder: whoever cleans those up will take it.
        }
    }
}
