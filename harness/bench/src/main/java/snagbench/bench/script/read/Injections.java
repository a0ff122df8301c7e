package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Fault;
import snagbench.bench.script.Injection;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.bench.script.yaml.YamlUnreadable;
import snagbench.wire.ChannelKind;

/** Reads what a script injects. */
final class Injections {
    private static final String EXAMPLE = "- when: { step: REACHING }";
    private static final List<String> KEYS = List.of("name", "when", "channels", "while", "until", "lasts");
    private static final Set<String> LATER =
            Set.of("disturb", "fault", "every-time", "at-most-times", "count", "release", "for", "vary");

    private final Names names;
    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Conditions conditions;
    private final Faults faults;
    private final Anchors anchors;
    private final Map<ChannelDescription, Set<Integer>> overridden = new HashMap<>();

    Injections(Names names, Findings findings, Times times, Conditions conditions, Anchors anchors) {
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
        this.times = times;
        this.conditions = conditions;
        this.faults = new Faults(findings, times);
        this.anchors = anchors;
    }

    /** Which injections override a channel, from 0, also where something else about them could not be read. */
    Map<ChannelDescription, Set<Integer>> overridden() {
        return overridden;
    }

    List<Injection> read(YamlNode node) {
        List<YamlNode> items =
                values.list(node, "a list of injections", EXAMPLE).orElse(List.of());
        List<Injection> injections = new ArrayList<>();
        for (int index = 0; index < items.size(); index++) {
            Optional<YamlMapping> mapping = values.mapping(items.get(index), "an injection", EXAMPLE);
            if (mapping.isPresent()) {
                injection(mapping.get(), index).ifPresent(injections::add);
            }
        }
        return injections;
    }

    private Optional<Injection> injection(YamlMapping mapping, int index) {
        Fields fields = Fields.of(mapping, "an injection", KEYS, LATER, findings);
        Optional<Part> given = fields.optional("name").flatMap(node -> values.line(node, "a name"));
        String name = given.map(Part::text).orElse("injection " + (index + 1));
        anchors.injection(index, given.orElse(new Part(mapping.at(), name)));

        Optional<Condition> when =
                fields.required("when", "{ step: REACHING }").flatMap(node -> conditions.read(node, Use.WHEN, index));
        List<Injection.Forcing> forcings = fields.required("channels", "{ channel: stuck-at 5 A }")
                .map(channels -> forcings(channels, index))
                .orElse(List.of());
        Optional<Condition> whileHolds =
                fields.optional("while").flatMap(node -> conditions.read(node, Use.WHILE, index));
        Optional<Condition> until = fields.optional("until").flatMap(node -> conditions.read(node, Use.UNTIL, index));
        Optional<Long> lasts = fields.optional("lasts").map(node -> times.micros(node, "a lasting time"));
        if (when.isEmpty() || forcings.isEmpty()) {
            return Optional.empty();
        }
        OptionalLong lastsMicros = lasts.map(OptionalLong::of).orElse(OptionalLong.empty());
        return Optional.of(new Injection(
                findings.place(mapping.at()), name, when.get(), forcings, whileHolds, until, lastsMicros));
    }

    private List<Injection.Forcing> forcings(YamlNode node, int index) {
        Optional<YamlMapping> mapping = values.mapping(node, "channels with their faults", "{ channel: stuck-at 5 A }");
        List<Injection.Forcing> forcings = new ArrayList<>();
        if (mapping.isPresent() && mapping.get().entries().isEmpty()) {
            findings.error(node.at(), "an injection without channels", "write at least one: { channel: stuck-at 5 A }");
        }
        for (YamlMapping.Entry entry : mapping.map(YamlMapping::entries).orElse(List.of())) {
            if (!(entry.value() instanceof YamlUnreadable)) {
                forcing(entry, index).ifPresent(forcings::add);
            }
        }
        return forcings;
    }

    private Optional<Injection.Forcing> forcing(YamlMapping.Entry entry, int index) {
        Optional<ChannelDescription> channel = names.channel(new Part(entry.at(), entry.key()));
        Optional<Part> text = values.line(entry.value(), "a fault, such as \"freeze\" or \"stuck-at 5 A\",");
        if (channel.isEmpty() || text.isEmpty()) {
            return Optional.empty();
        }
        Optional<Fault> fault = faults.read(text.get(), channel.get());
        if (fault.isPresent() || channel.get().kind() == ChannelKind.SENSOR) {
            overridden.computeIfAbsent(channel.get(), one -> new HashSet<>()).add(index);
        }
        return fault.map(found -> new Injection.Forcing(findings.place(entry.at()), channel.get(), found));
    }
}
