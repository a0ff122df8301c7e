package snagbench.bench.script.read;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Locale;
import java.util.Optional;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Checked;
import snagbench.bench.script.DescriptionItems;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.yaml.YamlMapping;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Stores what a rig tells of itself, and reads it back, so that files can be checked with no rig and a rig that has
 * changed is noticed.
 *
 * <p>The file is JSON: {@code digest} (text, "0x" and 8 hexadecimal digits), {@code limits}, {@code channels} in their
 * order, {@code failSafes}. Values are in the channels' steps. It is read as the YAML that JSON is, since people do mend
 * such files by hand, and are then told where.
 */
public final class Snapshots {
    static final String WHAT = "a rig's stored description";
    static final String CURE = "\"identify --save\" makes the file anew";

    private Snapshots() {}

    /**
     * Stores a description. The file is written beside and then put in its place, so that it is never half there.
     *
     * @param file of the snapshot
     * @param rig what the rig tells of itself
     * @throws IOException if the file cannot be written
     */
    public static void write(Path file, RigDescription rig) throws IOException {
        JsonMapper mapper = new JsonMapper();
        ObjectNode root = mapper.createObjectNode();
        root.put("digest", String.format(Locale.ROOT, "0x%08x", rig.digest()));
        ProbeCapacity limits = rig.limits();
        root.putObject("limits")
                .put("real", limits.real())
                .put("tickMicros", limits.tickMicros())
                .put("slots", limits.slots())
                .put("terms", limits.terms())
                .put("points", limits.points())
                .put("guards", limits.guards())
                .put("frame", limits.frame())
                .put("kinds", limits.kinds())
                .put("history", limits.history());
        ArrayNode channels = root.putArray("channels");
        for (ChannelDescription channel : rig.channels()) {
            ObjectNode one = channels.addObject()
                    .put("name", channel.name())
                    .put("kind", channel.kind().name().toLowerCase(Locale.ROOT))
                    .put("unit", channel.unit())
                    .put("stepMultiplier", channel.stepMultiplier())
                    .put("stepExponent", channel.stepExponent())
                    .put("lowest", channel.lowest())
                    .put("highest", channel.highest())
                    .put("absent", channel.absent())
                    .put("flags", channel.flags());
            ArrayNode names = one.putArray("valueNames");
            channel.valueNames().forEach(names::add);
        }
        ArrayNode failSafes = root.putArray("failSafes");
        for (FailSafeDescription failSafe : rig.failSafes()) {
            failSafes
                    .addObject()
                    .put("number", failSafe.number())
                    .put("name", failSafe.name())
                    .put("inhibition", failSafe.inhibition().orElse(-1));
        }
        String text =
                mapper.writerWithDefaultPrettyPrinter().writeValueAsString(root).replace("\r\n", "\n") + "\n";
        Path beside = file.resolveSibling(file.getFileName() + ".new");
        Files.write(beside, text.getBytes(StandardCharsets.UTF_8));
        Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING);
    }

    /**
     * Reads a stored description.
     *
     * @param file of the snapshot
     * @return the description if it is good, and all problems
     */
    public static Checked<RigDescription> read(Path file) {
        UserFile opened = UserFile.open(file, WHAT, CURE);
        Findings findings = opened.findings();
        Optional<RigDescription> read = opened.root().map(root -> new SnapshotReader(findings).description(root));
        if (read.isPresent() && !findings.hasErrors()) {
            compareDigest(read.get(), opened.root().get(), findings);
        }
        return findings.with(read);
    }

    /**
     * A rig whose digest is the stored one is taken for the stored one. So a file that was changed and bears its old digest would
     * be believed rather than the rig.
     */
    private static void compareDigest(RigDescription read, YamlMapping root, Findings findings) {
        int digest = DescriptionItems.digestOf(read);
        if (digest != read.digest()) {
            findings.error(
                    root.entries().stream()
                            .filter(entry -> entry.key().equals("digest"))
                            .findFirst()
                            .map(YamlMapping.Entry::at)
                            .orElse(root.at()),
                    String.format(
                            Locale.ROOT,
                            "the channels and fail-safes were changed by hand: their digest is 0x%08x, and the file says 0x%08x",
                            digest,
                            read.digest()),
                    CURE);
        }
    }
}
