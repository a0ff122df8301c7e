package snagbench.bench.script.read;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Checked;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.yaml.YamlList;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.bench.script.yaml.YamlScalar;
import snagbench.wire.ChannelKind;
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
    private static final String WHAT = "a rig's stored description";
    private static final String CURE = "\"identify --save\" makes the file anew";
    private static final List<String> LIMITS =
            List.of("real", "tickMicros", "slots", "terms", "points", "guards", "frame", "kinds");
    private static final List<String> CHANNEL = List.of(
            "name",
            "kind",
            "unit",
            "stepMultiplier",
            "stepExponent",
            "lowest",
            "highest",
            "absent",
            "flags",
            "valueNames");

    private final Findings findings;
    private final Values values;

    private Snapshots(Findings findings) {
        this.findings = findings;
        this.values = new Values(findings);
    }

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
                .put("kinds", limits.kinds());
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
        return findings.with(opened.root().map(root -> new Snapshots(findings).description(root)));
    }

    private RigDescription description(YamlMapping root) {
        Fields fields = Fields.of(root, WHAT, List.of("digest", "limits", "channels", "failSafes"), Set.of(), findings);
        int digest = fields.required("digest", "\"0x00000000\"")
                .flatMap(node -> values.line(node, "a digest"))
                .map(this::digest)
                .orElse(0);
        ProbeCapacity limits = fields.required("limits", "{ ... }")
                .flatMap(node -> values.mapping(node, "the probe's limits", CURE))
                .map(this::limits)
                .orElse(new ProbeCapacity(false, 0, 0, 0, 0, 0, 0, 0));
        List<ChannelDescription> channels = new ArrayList<>();
        for (YamlNode node : items(fields, "channels")) {
            values.mapping(node, "a channel", CURE)
                    .map(mapping -> channel(mapping, channels.size()))
                    .ifPresent(channels::add);
        }
        List<FailSafeDescription> failSafes = new ArrayList<>();
        for (YamlNode node : items(fields, "failSafes")) {
            values.mapping(node, "a fail-safe", CURE)
                    .map(mapping -> failSafe(mapping, channels.size()))
                    .ifPresent(failSafes::add);
        }
        return new RigDescription(digest, channels, failSafes, limits);
    }

    private List<YamlNode> items(Fields fields, String key) {
        Optional<YamlNode> node = fields.required(key, "[ ... ]");
        if (node.isPresent() && node.get() instanceof YamlList list) {
            return list.items();
        }
        node.ifPresent(other -> findings.error(other.at(), "\"" + key + "\" is no list", CURE));
        return List.of();
    }

    private int digest(Part part) {
        if (!part.text().matches("0x[0-9a-fA-F]{8}")) {
            findings.error(part.at(), "no digest: \"0x\" and 8 hexadecimal digits are wanted", CURE);
            return 0;
        }
        return Integer.parseUnsignedInt(part.text().substring(2), 16);
    }

    private ProbeCapacity limits(YamlMapping mapping) {
        Fields fields = Fields.of(mapping, "\"limits\"", LIMITS, Set.of(), findings);
        return new ProbeCapacity(
                text(fields, "real").equals("true"),
                whole(fields, "tickMicros", 0, Integer.MAX_VALUE),
                whole(fields, "slots", 0, 32),
                whole(fields, "terms", 0, 65535),
                whole(fields, "points", 0, 65535),
                whole(fields, "guards", 0, 255),
                whole(fields, "frame", 64, 65535),
                whole(fields, "kinds", Integer.MIN_VALUE, Integer.MAX_VALUE));
    }

    private ChannelDescription channel(YamlMapping mapping, int index) {
        Fields fields = Fields.of(mapping, "a channel", CHANNEL, Set.of(), findings);
        List<String> names = new ArrayList<>();
        for (YamlNode node : items(fields, "valueNames")) {
            values.text(node, "a value's name").ifPresent(name -> names.add(name.text()));
        }
        return new ChannelDescription(
                index,
                text(fields, "name"),
                kind(fields),
                text(fields, "unit"),
                whole(fields, "stepMultiplier", 1, 1000),
                whole(fields, "stepExponent", -9, 9),
                whole(fields, "lowest", Integer.MIN_VALUE, Integer.MAX_VALUE),
                whole(fields, "highest", Integer.MIN_VALUE, Integer.MAX_VALUE),
                whole(fields, "absent", Integer.MIN_VALUE, Integer.MAX_VALUE),
                whole(fields, "flags", 0, Integer.MAX_VALUE),
                names);
    }

    private FailSafeDescription failSafe(YamlMapping mapping, int channels) {
        Fields fields = Fields.of(mapping, "a fail-safe", List.of("number", "name", "inhibition"), Set.of(), findings);
        int inhibition = whole(fields, "inhibition", -1, channels - 1);
        return new FailSafeDescription(
                whole(fields, "number", 1, 255),
                text(fields, "name"),
                inhibition < 0 ? OptionalInt.empty() : OptionalInt.of(inhibition));
    }

    private ChannelKind kind(Fields fields) {
        String word = text(fields, "kind");
        for (ChannelKind kind : ChannelKind.values()) {
            if (kind.name().toLowerCase(Locale.ROOT).equals(word)) {
                return kind;
            }
        }
        findings.error(fields.at("kind"), "there is no such kind of channel", CURE);
        return ChannelKind.SENSOR;
    }

    private String text(Fields fields, String key) {
        return fields.required(key, "...")
                .flatMap(node -> values.text(node, "\"" + key + "\""))
                .map(YamlScalar::text)
                .orElse("");
    }

    private int whole(Fields fields, String key, int least, int most) {
        Optional<Part> part = fields.required(key, "0").flatMap(node -> values.line(node, "\"" + key + "\""));
        return part.map(text -> WholeNumber.read(text, least, most, "a number", findings))
                .orElse(0);
    }
}
