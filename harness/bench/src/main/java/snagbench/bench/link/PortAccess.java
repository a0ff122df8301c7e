package snagbench.bench.link;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributes;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/**
 * Who may open a port, and whether that includes this process.
 *
 * @param owner user that the device file belongs to
 * @param group group that it belongs to
 * @param permissions its mode
 * @param user who this process runs as
 * @param allowed true if this process may read and write it
 * @param listed true if the system's list of groups has the user in the group: a login from before does not know it
 */
public record PortAccess(
        String owner,
        String group,
        Set<PosixFilePermission> permissions,
        String user,
        boolean allowed,
        boolean listed) {
    private static final Path GROUPS = Path.of("/etc/group");
    private static final Path TERMINALS = Path.of("/dev/pts");

    /** Keeps the permissions as they are now. */
    public PortAccess {
        permissions = Set.copyOf(permissions);
    }

    /**
     * Reads it off a device file.
     *
     * @param device the file, no link
     * @throws IOException if it is not there, or the system knows no owners and groups
     */
    static PortAccess of(Path device) throws IOException {
        PosixFileAttributes file = Files.readAttributes(device, PosixFileAttributes.class);
        String user = System.getProperty("user.name", "?");
        return new PortAccess(
                file.owner().getName(),
                file.group().getName(),
                file.permissions(),
                user,
                Files.isReadable(device) && Files.isWritable(device),
                isListed(user, file.group().getName(), groups()));
    }

    private static List<String> groups() {
        try {
            return Files.readAllLines(GROUPS, StandardCharsets.UTF_8);
        } catch (IOException e) {
            return List.of();
        }
    }

    /** Lines of the list: name, password, number, members with commas between them; colons between all. */
    static boolean isListed(String user, String group, List<String> lines) {
        return lines.stream()
                .map(line -> line.split(":", -1))
                .filter(fields -> fields.length >= 4 && fields[0].equals(group))
                .flatMap(fields -> Stream.of(fields[3].split(",", -1)))
                .anyMatch(user::equals);
    }

    /**
     * Who may open it, in words.
     *
     * @return such as "root and group dialout"
     */
    public String who() {
        if (permissions.containsAll(Set.of(PosixFilePermission.OTHERS_READ, PosixFilePermission.OTHERS_WRITE))) {
            return "everybody";
        }
        return groupMay() ? owner + " and group " + group : owner + " alone";
    }

    private boolean groupMay() {
        return permissions.containsAll(Set.of(PosixFilePermission.GROUP_READ, PosixFilePermission.GROUP_WRITE));
    }

    /** What is in the way and what to do, for a process that may not open it. */
    String refusal(Path device) {
        String what = "user " + user + " may not open it: " + who() + " may (" + owner + ":" + group + ", mode "
                + PosixFilePermissions.toString(permissions) + "). ";
        if (device.startsWith(TERMINALS)) {
            return what + "A virtual rig is served to the user who serves it: serve it as " + user + ", or run this as "
                    + owner;
        }
        if (!groupMay() || group.equals("root")) {
            return what + "Let a group have it (on Linux a udev rule with GROUP=\"dialout\", MODE=\"0660\"), and join"
                    + " that group";
        }
        return listed
                ? what + "The user is in that group by now, but logged in before: log out and in again"
                : what + "Join that group: \"sudo usermod -a -G " + group + " " + user
                        + "\", then log out and in again";
    }
}
