package snagbench.bench.link;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** The serial ports of this machine. Pseudo-terminals, on which virtual rigs are served, are not among them. */
public final class Ports {
    private static final Path STABLE_NAMES = Path.of("/dev/serial/by-id");
    private static final String UNKNOWN = "Unknown";

    private Ports() {}

    /**
     * A serial port.
     *
     * @param path what to open, such as /dev/ttyUSB0
     * @param stableName another path that stays the same when devices are plugged in another order, if there is one
     * @param description what the device or its driver calls itself
     * @param vendorId USB vendor, 0 to 0xFFFF, if it is a USB device
     * @param productId USB product, 0 to 0xFFFF, if it is a USB device
     * @param manufacturer as the device tells, if it does
     * @param serialNumber as the device tells, if it does
     * @param access who may open it, if the system tells
     * @param users programs that have it open, as far as can be seen
     */
    public record Port(
            String path,
            Optional<String> stableName,
            String description,
            OptionalInt vendorId,
            OptionalInt productId,
            Optional<String> manufacturer,
            Optional<String> serialNumber,
            Optional<PortAccess> access,
            List<String> users) {
        /** Copies the list. */
        public Port {
            users = List.copyOf(users);
        }

        /**
         * Why this process cannot have it now, and what to do.
         *
         * @return a sentence; empty if nothing is known to be in the way
         */
        public Optional<String> trouble() {
            if (access.isPresent() && !access.get().allowed()) {
                return Optional.of(access.get().refusal(Path.of(path)));
            }
            return users.isEmpty()
                    ? Optional.empty()
                    : Optional.of("in use by " + String.join(" and ", users) + "; end that first");
        }
    }

    /**
     * Lists them.
     *
     * @return by path
     * @throws LinkException if the serial library does not run here
     */
    public static List<Port> list() throws LinkException {
        return SerialDevice.list().stream()
                .map(Ports::port)
                .sorted((a, b) -> a.path().compareTo(b.path()))
                .toList();
    }

    /**
     * Whether a port is there. Quick, unlike {@link #list}: for whoever waits for one to appear. The system may take some
     * tenths of a second more until users may open it.
     *
     * @param path of the device, or of a link to it
     * @return false if it is not, or not yet
     */
    public static boolean isThere(String path) {
        try {
            return Files.exists(Path.of(path));
        } catch (InvalidPathException e) {
            return false;
        }
    }

    /**
     * Whether a port is there, and this process may open it. Quick as well.
     *
     * @param path of the device, or of a link to it
     * @return false if it is not, or not yet
     */
    public static boolean mayBeOpened(String path) {
        return isThere(path) && Files.isReadable(Path.of(path)) && Files.isWritable(Path.of(path));
    }

    /** The paths alone; none if the library does not run: whoever needs a port hears of that when opening it. */
    static List<String> paths() {
        try {
            return SerialDevice.list().stream().map(SerialDevice.Listed::path).toList();
        } catch (LinkException e) {
            return List.of();
        }
    }

    private static Port port(SerialDevice.Listed listed) {
        Path path = Path.of(listed.path());
        return new Port(
                listed.path(),
                stableName(path, STABLE_NAMES),
                listed.description(),
                number(listed.vendor()),
                number(listed.product()),
                word(listed.manufacturer()),
                word(listed.serialNumber()),
                access(path),
                PortHolders.of(path));
    }

    /** The link among those in a folder that leads to a device. */
    static Optional<String> stableName(Path device, Path folder) {
        try (DirectoryStream<Path> links = Files.newDirectoryStream(folder)) {
            for (Path link : links) {
                if (Files.exists(link) && Files.isSameFile(link, device)) {
                    return Optional.of(link.toString());
                }
            }
        } catch (IOException e) {
            // No such folder, or none for this device: then it has no stable name.
        }
        return Optional.empty();
    }

    private static OptionalInt number(int listed) {
        return listed < 0 ? OptionalInt.empty() : OptionalInt.of(listed);
    }

    private static Optional<String> word(String listed) {
        return Optional.of(listed).filter(one -> !one.isBlank() && !one.equals(UNKNOWN));
    }

    private static Optional<PortAccess> access(Path path) {
        try {
            return Optional.of(PortAccess.of(path));
        } catch (IOException e) {
            return Optional.empty();
        }
    }
}
