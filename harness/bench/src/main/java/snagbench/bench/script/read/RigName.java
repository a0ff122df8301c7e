package snagbench.bench.script.read;

import java.nio.file.Path;
import java.util.Optional;
import java.util.regex.Pattern;
import snagbench.bench.script.yaml.Shown;

/** A rig's name is that of its folder, too. */
final class RigName {
    private static final Pattern FORM = Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{N}._-]{0,63}");

    private RigName() {}

    static Optional<String> check(Part name, Findings findings) {
        if (FORM.matcher(name.text()).matches()) {
            return Optional.of(name.text());
        }
        findings.error(
                name.at(),
                Shown.quoted(name.text()) + " is no rig's name",
                "its folder has the same name: letters, digits, \"-\", \"_\" and \".\", at most 64 of them");
        return Optional.empty();
    }

    /** Warns of a rig's file in a folder of another name: plans find it by the folder. */
    static void compareWithFolder(Part name, Path file, Findings findings) {
        Path folder = file.toAbsolutePath().normalize().getParent();
        Path last = folder == null ? null : folder.getFileName();
        if (last != null && !last.toString().equals(name.text())) {
            findings.warning(
                    name.at(),
                    "the rig " + Shown.quoted(name.text()) + " lies in the folder " + Shown.quoted(last.toString()),
                    "plans find a rig by its folder: give both the same name");
        }
    }
}
