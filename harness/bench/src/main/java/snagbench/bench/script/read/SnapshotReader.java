package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlList;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.bench.script.yaml.YamlScalar;
import snagbench.wire.ChannelKind;
import snagbench.wire.Wire;

/** Reads a rig's stored description. */
final class SnapshotReader {
    private static final String CURE = Snapshots.CURE;
    private static final List<String> LIMITS =
            List.of("real", "tickMicros", "slots", "terms", "points", "guards", "frame", "kinds", "history");
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
    private final Map<String, Position> channelNames = new HashMap<>();
    private final Map<String, Position> failSafeNames = new HashMap<>();
    private final Set<Integer> failSafeNumbers = new HashSet<>();

    SnapshotReader(Findings findings) {
        this.findings = findings;
        this.values = new Values(findings);
    }

    RigDescription description(YamlMapping root) {
        Fields fields = Fields.of(
                root, Snapshots.WHAT, List.of("digest", "limits", "channels", "failSafes"), Set.of(), findings);
        int digest = fields.required("digest", "\"0x00000000\"")
                .flatMap(node -> values.line(node, "a digest"))
                .map(this::digest)
                .orElse(0);
        ProbeCapacity limits = fields.required("limits", "{ ... }")
                .flatMap(node -> values.mapping(node, "the probe's limits", CURE))
                .map(this::limits)
                .orElse(new ProbeCapacity(false, 0, 0, 0, 0, 0, 0, 0, 0));
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
                fields.required("real", "false").map(values::truth).orElse(false),
                whole(fields, "tickMicros", 0, Integer.MAX_VALUE),
                whole(fields, "slots", 0, Wire.MASK_BITS),
                whole(fields, "terms", 0, 65535),
                whole(fields, "points", 0, 65535),
                whole(fields, "guards", 0, 255),
                whole(fields, "frame", Wire.SMALLEST_FRAME, 65535),
                whole(fields, "kinds", Integer.MIN_VALUE, Integer.MAX_VALUE),
                whole(fields, "history", 0, 65536));
    }

    private ChannelDescription channel(YamlMapping mapping, int index) {
        Fields fields = Fields.of(mapping, "a channel", CHANNEL, Set.of(), findings);
        List<String> names = new ArrayList<>();
        for (YamlNode node : items(fields, "valueNames")) {
            values.text(node, "a value's name").ifPresent(name -> names.add(name.text()));
        }
        int lowest = whole(fields, "lowest", Integer.MIN_VALUE, Integer.MAX_VALUE);
        int highest = whole(fields, "highest", Integer.MIN_VALUE, Integer.MAX_VALUE);
        if (lowest > highest) {
            findings.error(fields.at("lowest"), "the lowest value is above the highest", CURE);
        }
        return new ChannelDescription(
                index,
                unique(fields, channelNames),
                kind(fields),
                text(fields, "unit"),
                whole(fields, "stepMultiplier", 1, 1000),
                whole(fields, "stepExponent", -9, 9),
                lowest,
                highest,
                whole(fields, "absent", Integer.MIN_VALUE, Integer.MAX_VALUE),
                whole(fields, "flags", 0, Integer.MAX_VALUE),
                names);
    }

    private FailSafeDescription failSafe(YamlMapping mapping, int channels) {
        Fields fields = Fields.of(mapping, "a fail-safe", List.of("number", "name", "inhibition"), Set.of(), findings);
        int inhibition = whole(fields, "inhibition", -1, channels - 1);
        int number = whole(fields, "number", 1, 255);
        if (!failSafeNumbers.add(number)) {
            findings.error(fields.at("number"), "two fail-safes have the number " + number, CURE);
        }
        return new FailSafeDescription(
                number,
                unique(fields, failSafeNames),
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

    /** A name that no other thing of its kind has. */
    private String unique(Fields fields, Map<String, Position> taken) {
        String name = text(fields, "name");
        Position first = name.isEmpty() ? null : taken.putIfAbsent(name, fields.at("name"));
        if (first != null) {
            findings.error(
                    fields.at("name"), "the name " + Shown.quoted(name) + " is taken in line " + first.line(), CURE);
        }
        return name;
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
