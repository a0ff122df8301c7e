package snagbench.bench.serve;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NotLinkException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/**
 * A symbolic link to a port, so that its path stays the same when the port does not. It goes while there is no port, as a
 * device's own name does. What stands at the path already is left alone, unless it is a link to a pseudo-terminal.
 */
final class PortLink {
    private static final Path PSEUDO_TERMINALS = Path.of("/dev/pts");

    private final Path path;

    PortLink(Path path) {
        this.path = path.toAbsolutePath();
    }

    Path path() {
        return path;
    }

    /** Points it at a port; at no time does it point nowhere. */
    void point(Path port) throws IOException {
        requireOurs();
        Path fresh = path.resolveSibling(path.getFileName() + "." + port.getFileName() + ".new");
        try {
            Files.deleteIfExists(fresh);
            Files.createSymbolicLink(fresh, port);
            Files.move(fresh, path, StandardCopyOption.ATOMIC_MOVE);
        } catch (IOException e) {
            throw new IOException(
                    "no link can be made at " + path + ": " + e.getClass().getSimpleName() + " " + e.getMessage(), e);
        }
    }

    private void requireOurs() throws IOException {
        if (!Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
            return;
        }
        String found;
        try {
            Path target = Files.readSymbolicLink(path);
            if (target.startsWith(PSEUDO_TERMINALS)) {
                return;
            }
            found = "a link to " + target;
        } catch (NotLinkException e) {
            found = "no link";
        }
        throw new IOException(path + " is there already and is " + found
                + "; a link to the rig's port may take the place of another such link only");
    }

    /** Takes it away, if it still points at that port. */
    void remove(Path port) throws IOException {
        if (Files.isSymbolicLink(path) && Files.readSymbolicLink(path).equals(port)) {
            Files.delete(path);
        }
    }
}
