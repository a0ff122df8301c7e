package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.wire.ChannelKind;
import snagbench.wire.GuardKind;

/** Reads guards. */
final class Guards {
    private static final String EXAMPLE = "- name: reach travel";
    private static final String TRAVEL = "{ reach.position: -4 mm .. 405 mm }";
    private static final String STALL = "{ reach.position: 1 mm, command: reach.command, at-least: 50 %, for: 2 s }";
    private static final Set<String> STALL_KEYS = Set.of("command", "at-least", "for", "over-ticks");

    /** Ticks over which a stall's change counts where the file does not say: some tens of milliseconds on most loops. */
    private static final int USUAL_WINDOW = 8;

    private static final int MOST_WINDOW = 64;

    private final RigDescription rig;
    private final Names names;
    private final Findings findings;
    private final Values values;
    private final ChannelValues channelValues;
    private final Times times;
    private final Map<String, Position> taken = new HashMap<>();

    Guards(RigDescription rig, Names names, Findings findings, Times times) {
        this.rig = rig;
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
        this.channelValues = new ChannelValues(findings);
        this.times = times;
    }

    List<RigFile.GuardSpec> read(YamlNode node) {
        List<YamlNode> items = values.list(node, "a list of guards", EXAMPLE).orElse(List.of());
        if (items.size() > rig.limits().guards()) {
            findings.error(
                    items.get(rig.limits().guards()).at(),
                    "the rig's probe has room for " + rig.limits().guards() + " guards, and here are " + items.size(),
                    "leave some out, from here on");
        }
        List<RigFile.GuardSpec> guards = new ArrayList<>();
        for (YamlNode item : items) {
            values.mapping(item, "a guard", EXAMPLE).flatMap(this::guard).ifPresent(guards::add);
        }
        return guards;
    }

    private Optional<RigFile.GuardSpec> guard(YamlMapping mapping) {
        Fields fields = Fields.of(mapping, "a guard", List.of("name", "travel", "stall"), Set.of("speed"), findings);
        Optional<Part> name =
                fields.required("name", "reach travel").flatMap(node -> values.line(node, "the guard's name"));
        name.ifPresent(this::claim);
        if (fields.has("travel") == fields.has("stall")) {
            boolean told = fields.has("speed") || !fields.lacks("travel") || !fields.lacks("stall");
            if (fields.has("travel") || !told) {
                findings.error(
                        mapping.at(),
                        "a guard limits one thing: travel or stall",
                        "write \"travel: " + TRAVEL + "\" or \"stall: " + STALL + "\"");
            }
            return Optional.empty();
        }
        String shown = name.map(Part::text).orElse("");
        return fields.has("travel")
                ? fields.optional("travel").flatMap(node -> travel(mapping.at(), shown, node))
                : fields.optional("stall").flatMap(node -> stall(mapping.at(), shown, node));
    }

    private void claim(Part name) {
        Position first = taken.putIfAbsent(name.text(), name.at());
        if (first != null) {
            findings.error(
                    name.at(),
                    "the guard's name " + Shown.quoted(name.text()) + " is taken in line " + first.line(),
                    "take another one: a verdict names the guard");
        }
    }

    private Optional<RigFile.GuardSpec> travel(Position at, String name, YamlNode node) {
        Optional<YamlMapping> mapping = values.mapping(node, "a channel with its travel", TRAVEL);
        if (mapping.isEmpty()) {
            return Optional.empty();
        }
        if (mapping.get().entries().size() != 1) {
            findings.error(node.at(), "a travel guard watches one channel", "write it as: travel: " + TRAVEL);
            return Optional.empty();
        }
        YamlMapping.Entry entry = mapping.get().entries().get(0);
        Optional<ChannelDescription> channel = sensor(entry);
        Optional<Part> range = values.line(entry.value(), "a range, such as \"-4 mm .. 405 mm\",");
        if (channel.isEmpty() || range.isEmpty()) {
            return Optional.empty();
        }
        Optional<Span> span = Span.of(range.get());
        if (span.isEmpty()) {
            findings.error(
                    range.get().at(),
                    Shown.quoted(range.get().text()) + " is no range",
                    "write both ends, such as \"-4 mm .. 405 mm\"");
            return Optional.empty();
        }
        OptionalInt least = channelValues.raw(span.get().from(), channel.get(), Rounding.NONE);
        OptionalInt most = channelValues.raw(span.get().to(), channel.get(), Rounding.NONE);
        if (least.isEmpty() || most.isEmpty()) {
            return Optional.empty();
        }
        checkRange(range.get(), channel.get(), least.getAsInt(), most.getAsInt());
        return Optional.of(new RigFile.GuardSpec(
                findings.place(at),
                name,
                GuardKind.TRAVEL,
                channel.get(),
                least.getAsInt(),
                most.getAsInt(),
                0,
                0,
                Optional.empty()));
    }

    private void checkRange(Part range, ChannelDescription channel, int least, int most) {
        if (least >= most) {
            findings.error(
                    range.at(), "the range " + Shown.quoted(range.text()) + " is empty", "write the lower end first");
        } else if (least <= channel.lowest() && most >= channel.highest()) {
            findings.warning(range.at(), "this guard can never trip", ChannelValues.range(channel));
        }
    }

    private Optional<RigFile.GuardSpec> stall(Position at, String name, YamlNode node) {
        Optional<YamlMapping> mapping = values.mapping(node, "a stall", STALL);
        if (mapping.isEmpty()) {
            return Optional.empty();
        }
        List<YamlMapping.Entry> watched = mapping.get().entries().stream()
                .filter(entry -> !STALL_KEYS.contains(entry.key()))
                .toList();
        if (watched.size() != 1) {
            findings.error(
                    watched.isEmpty() ? node.at() : watched.get(1).at(),
                    "a stall guard watches one channel, and here are " + watched.size(),
                    "write it as: stall: " + STALL);
            return Optional.empty();
        }
        String key = watched.get(0).key();
        Fields fields = Fields.of(
                mapping.get(),
                "a stall guard",
                List.of(key, "command", "at-least", "for", "over-ticks"),
                Set.of(),
                findings);
        Optional<ChannelDescription> channel = sensor(watched.get(0));
        Optional<ChannelDescription> command = fields.required("command", "reach.command")
                .flatMap(value -> values.line(value, "an actuator's name"))
                .flatMap(part -> names.channel(part, Set.of(ChannelKind.ACTUATOR), "an actuator"));
        OptionalInt change = value(Optional.of(watched.get(0).value()), channel);
        OptionalInt size = value(fields.required("at-least", "50 %"), command);
        long time = fields.required("for", "2 s")
                .map(value -> times.micros(value, "a stall's time"))
                .orElse(0L);
        int window = fields.optional("over-ticks").map(this::window).orElse(USUAL_WINDOW);
        if (channel.isEmpty() || change.isEmpty() || command.isEmpty() || size.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new RigFile.GuardSpec(
                findings.place(at),
                name,
                GuardKind.STALL,
                channel.get(),
                size.getAsInt(),
                change.getAsInt(),
                window,
                time,
                command));
    }

    /** A size, at least 0, in the steps of a channel. */
    private OptionalInt value(Optional<YamlNode> node, Optional<ChannelDescription> channel) {
        Optional<Part> part = node.flatMap(one -> values.line(one, "a figure with its unit"));
        if (part.isEmpty() || channel.isEmpty()) {
            return OptionalInt.empty();
        }
        OptionalInt raw = channelValues.raw(part.get(), channel.get(), Rounding.NONE);
        if (raw.isPresent() && raw.getAsInt() < 0) {
            findings.error(
                    part.get().at(),
                    "a size below 0: " + part.get().text(),
                    "it counts both ways: write it without the sign");
            return OptionalInt.empty();
        }
        return raw;
    }

    private int window(YamlNode node) {
        return values.line(node, "a number of ticks")
                .map(part -> WholeNumber.read(part, 1, MOST_WINDOW, "a number of ticks", findings))
                .orElse(USUAL_WINDOW);
    }

    private Optional<ChannelDescription> sensor(YamlMapping.Entry entry) {
        return names.channel(new Part(entry.at(), entry.key()), Set.of(ChannelKind.SENSOR), "a sensor");
    }
}
