package snagbench.bench.link;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;

/**
 * Which programs have a port open. Linux tells that of one's own processes, and root of all; elsewhere nobody is found.
 */
final class PortHolders {
    private PortHolders() {}

    /**
     * Looks for programs other than this one.
     *
     * @param device the device file, no link
     * @return such as "minicom (process 1234)"; empty if there is none, or none can be seen
     */
    static List<String> of(Path device) {
        long own = ProcessHandle.current().pid();
        return ProcessHandle.allProcesses()
                .filter(process -> process.pid() != own && holds(process.pid(), device))
                .map(process -> name(process) + " (process " + process.pid() + ")")
                .sorted()
                .toList();
    }

    private static boolean holds(long process, Path device) {
        try (DirectoryStream<Path> files = Files.newDirectoryStream(Path.of("/proc", Long.toString(process), "fd"))) {
            for (Path file : files) {
                if (Files.isSymbolicLink(file) && Files.readSymbolicLink(file).equals(device)) {
                    return true;
                }
            }
        } catch (IOException | RuntimeException e) {
            // Somebody else's process, or one that has just ended: not seen.
        }
        return false;
    }

    private static String name(ProcessHandle process) {
        return process.info()
                .command()
                .map(command -> Objects.requireNonNullElse(Path.of(command).getFileName(), command)
                        .toString())
                .orElse("a program");
    }
}
