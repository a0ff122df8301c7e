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
import snagbench.bench.script.Injection;
import snagbench.bench.script.Trigger;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.bench.script.yaml.YamlUnreadable;
import snagbench.wire.ChannelKind;

/** Reads what a script injects: names first, since triggers may name what stands further down. */
final class Injections {
    private static final String EXAMPLE = "- when: { step: REACHING }";
    private static final List<String> KEYS = keys();

    private final Findings findings;
    private final Values values;
    private final Conditions conditions;
    private final Anchors anchors;
    private final Triggers triggers;
    private final Endings endings;
    private final Doings doings;
    private final Map<ChannelDescription, Set<Integer>> overridden = new HashMap<>();

    Injections(Findings findings, Times times, Conditions conditions, Anchors anchors, Doings doings) {
        this.findings = findings;
        this.values = new Values(findings);
        this.conditions = conditions;
        this.anchors = anchors;
        this.triggers = new Triggers(findings, times, conditions, anchors);
        this.endings = new Endings(findings, times, conditions);
        this.doings = doings;
    }

    private static List<String> keys() {
        List<String> keys = new ArrayList<>(List.of("name"));
        keys.addAll(Triggers.KEYS);
        keys.addAll(Doings.KEYS);
        keys.addAll(Endings.KEYS);
        keys.add(Twins.KEY);
        return List.copyOf(keys);
    }

    /** An injection whose name is known; the rest is read once all names are. */
    record Draft(int index, String name, YamlMapping mapping, Fields fields) {}

    /** Which injections override a channel, from 0, also where something else about them could not be read. */
    Map<ChannelDescription, Set<Integer>> overridden() {
        return overridden;
    }

    /** Gathers the names. */
    List<Draft> drafts(YamlNode node) {
        List<YamlNode> items =
                values.list(node, "a list of injections", EXAMPLE).orElse(List.of());
        List<Draft> drafts = new ArrayList<>();
        for (int index = 0; index < items.size(); index++) {
            Optional<YamlMapping> mapping = values.mapping(items.get(index), "an injection", EXAMPLE);
            if (mapping.isPresent()) {
                Fields fields = Fields.of(mapping.get(), "an injection", KEYS, Set.of(), findings);
                Optional<Part> given = fields.optional("name").flatMap(name -> values.line(name, "a name"));
                String name = given.map(Part::text).orElse("injection " + (index + 1));
                anchors.injection(index, given.orElse(new Part(mapping.get().at(), name)));
                drafts.add(new Draft(index, name, mapping.get(), fields));
            }
        }
        return drafts;
    }

    List<Injection> read(List<Draft> drafts) {
        List<Injection> injections = new ArrayList<>();
        drafts.forEach(draft -> injection(draft).ifPresent(injections::add));
        return injections;
    }

    private Optional<Injection> injection(Draft draft) {
        Fields fields = draft.fields();
        Optional<Trigger> trigger = triggers.read(fields, draft.index());
        Doings.Done done = doings.read(fields);
        done.touched().forEach(channel -> overridden
                .computeIfAbsent(channel, one -> new HashSet<>())
                .add(draft.index()));
        Optional<Condition> written =
                fields.optional("while").flatMap(node -> conditions.read(node, Use.WHILE, draft.index()));
        Endings.Ending ending = endings.read(fields, draft.index(), done.forcings());
        if (trigger.isEmpty() || done.forcings().isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Injection(
                findings.place(draft.mapping().at()),
                draft.name(),
                trigger.get(),
                done.forcings(),
                together(written, done.whileHolds()),
                ending.until(),
                ending.lasts().map(OptionalLong::of).orElse(OptionalLong.empty())));
    }

    /** All terms of conditions that must hold together. */
    private static Optional<Condition> together(Optional<Condition> written, List<Condition> others) {
        List<Condition> all = new ArrayList<>();
        written.ifPresent(all::add);
        all.addAll(others);
        if (all.isEmpty()) {
            return Optional.empty();
        }
        List<Condition.Term> terms =
                all.stream().flatMap(condition -> condition.terms().stream()).toList();
        return Optional.of(new Condition(all.get(0).place(), terms));
    }

    static boolean isReadable(YamlMapping.Entry entry) {
        return !(entry.value() instanceof YamlUnreadable);
    }

    /** Whether a channel has a reading that an override changes. */
    static boolean hasReading(ChannelDescription channel) {
        return channel.kind() == ChannelKind.SENSOR;
    }
}
