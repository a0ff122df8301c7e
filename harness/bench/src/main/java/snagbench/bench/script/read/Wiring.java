package snagbench.bench.script.read;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.wire.ChannelKind;

/** Reads what people know of a rig's channels, and of the floor around it. */
final class Wiring {
    private static final String EXAMPLE = "{ wired: \"where\" }";

    private final Names names;
    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Map<String, String> wired = new HashMap<>();
    private final Map<String, Long> filterDelays = new HashMap<>();

    Wiring(Names names, Findings findings, Times times) {
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
        this.times = times;
    }

    /** Where channels are wired, by their names. */
    Map<String, String> wired() {
        return wired;
    }

    /** How much filters before the probe delay, in microseconds, by the channels' names. */
    Map<String, Long> filterDelays() {
        return filterDelays;
    }

    void read(YamlNode node) {
        Optional<YamlMapping> channels = values.mapping(node, "channels with their wiring", "channel: " + EXAMPLE);
        channels.map(YamlMapping::entries).orElse(List.of()).forEach(this::channel);
    }

    private void channel(YamlMapping.Entry entry) {
        Optional<ChannelDescription> channel = names.channel(new Part(entry.at(), entry.key()));
        Optional<YamlMapping> known =
                values.mapping(entry.value(), "what is known of " + Shown.quoted(entry.key()), EXAMPLE);
        if (known.isEmpty()) {
            return;
        }
        Fields fields = Fields.of(known.get(), "a channel", List.of("wired", "filter-delay"), Set.of(), findings);
        Optional<String> where = fields.required("wired", "where")
                .flatMap(value -> values.text(value, "where it is wired"))
                .map(text -> text.text().strip());
        Optional<Long> delay = fields.optional("filter-delay").map(value -> times.micros(value, "a filter's delay"));
        if (channel.isPresent()) {
            where.ifPresent(text -> wired.put(channel.get().name(), text));
            delay.ifPresent(micros -> filterDelays.put(channel.get().name(), micros));
        }
    }

    /** How far the floor is clear beyond the machine's ordinary ways, in steps, by the sensors that tell where it stands. */
    Map<String, Integer> clearFloor(YamlNode node) {
        String example = "{ base.position: 100 mm }";
        Map<String, Integer> clear = new HashMap<>();
        Optional<YamlMapping> sensors = values.mapping(node, "sensors with their clear floor", example);
        if (sensors.isPresent() && sensors.get().entries().isEmpty()) {
            findings.error(node.at(), "a clear floor of nothing", "write it as: " + example);
        }
        for (YamlMapping.Entry entry : sensors.map(YamlMapping::entries).orElse(List.of())) {
            Optional<ChannelDescription> sensor =
                    names.channel(new Part(entry.at(), entry.key()), Set.of(ChannelKind.SENSOR), "a sensor");
            Optional<Part> size = values.line(entry.value(), "a size, such as \"100 mm\",");
            if (sensor.isPresent() && size.isPresent()) {
                OptionalInt raw = new ChannelValues(findings).size(size.get(), sensor.get(), Rounding.DOWN);
                raw.ifPresent(steps -> clear.put(sensor.get().name(), steps));
            }
        }
        return clear;
    }
}
