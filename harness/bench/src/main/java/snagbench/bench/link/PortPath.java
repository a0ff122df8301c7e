package snagbench.bench.link;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;

/**
 * The check of what the user calls a port, before the serial library sees it: that would take {@code /no/such/ttyS0} for
 * {@code /dev/ttyS0}.
 */
final class PortPath {
    private static final int SHOWN = 6;

    /** The bits of a file's mode that tell its kind, and the kind "character device" (POSIX, sys/stat.h). */
    private static final int KIND = 0170000;

    private static final int CHARACTER_DEVICE = 0020000;

    private PortPath() {}

    /**
     * Finds the device file.
     *
     * @param given what the user wrote; a link will do
     * @param known tells the ports that there are; asked only if the given one is not there
     * @return the device file, no link
     * @throws LinkException if it is not there, or is no device; the message names the nearest that are
     */
    static Path device(String given, Supplier<List<String>> known) throws LinkException {
        Path path;
        try {
            path = Path.of(given);
        } catch (InvalidPathException e) {
            throw new LinkException("\"" + given + "\" cannot be the path of a serial port: " + e.getReason(), e);
        }
        if (given.isEmpty() || !Files.exists(path)) {
            throw new LinkException(missing(given, path, known.get()));
        }
        try {
            Path device = path.toRealPath();
            if (!isDevice(device)) {
                throw new LinkException(given + " is " + (Files.isDirectory(device) ? "a folder" : "a file")
                        + ", not a serial port; " + nearest(given, path, known.get()));
            }
            return device;
        } catch (IOException e) {
            throw new LinkException("serial port " + given + " cannot be looked at: " + e, e);
        }
    }

    private static boolean isDevice(Path path) throws IOException {
        return (((Integer) Files.getAttribute(path, "unix:mode")) & KIND) == CHARACTER_DEVICE;
    }

    private static String missing(String given, Path path, List<String> known) {
        String what = "serial port " + given + " does not exist";
        if (Files.isSymbolicLink(path)) {
            try {
                what = "serial port " + given + " is a link to " + Files.readSymbolicLink(path)
                        + ", which does not exist: is the cable in?";
            } catch (IOException e) {
                // Then without the link's aim.
            }
        }
        return what + "; " + nearest(given, path, known);
    }

    private static String nearest(String given, Path path, List<String> known) {
        Set<String> all = new LinkedHashSet<>(known);
        all.addAll(devicesBeside(path));
        if (all.isEmpty()) {
            return "no serial port is there at all: is the cable in, and a data cable?";
        }
        return "nearest that are there: "
                + all.stream()
                        .sorted(Comparator.<String>comparingInt(one -> distance(given, one))
                                .thenComparing(Comparator.naturalOrder()))
                        .limit(SHOWN)
                        .collect(Collectors.joining(", "));
    }

    /** Pseudo-terminals are on nobody's list of ports. */
    private static List<String> devicesBeside(Path path) {
        List<String> found = new ArrayList<>();
        Path folder = path.getParent();
        if (folder == null || !folder.endsWith("pts") || !Files.isDirectory(folder)) {
            return found;
        }
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "[0-9]*")) {
            for (Path file : files) {
                if (Files.exists(file, LinkOption.NOFOLLOW_LINKS) && isDevice(file)) {
                    found.add(file.toString());
                }
            }
        } catch (IOException e) {
            // Then without them.
        }
        return found;
    }

    /** How many letters must be put in, taken out or changed. */
    static int distance(String a, String b) {
        int[] row = new int[b.length() + 1];
        for (int j = 0; j <= b.length(); j++) {
            row[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.length(); j++) {
                int change = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.min(change, Math.min(row[j], row[j - 1]) + 1);
            }
        }
        return row[b.length()];
    }
}
