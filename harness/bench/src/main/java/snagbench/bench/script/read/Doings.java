package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.CompoundFault;
import snagbench.bench.script.Condition;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.Fault;
import snagbench.bench.script.Injection;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.wire.ChannelKind;

/** Reads what an injection, or a compound fault, does: overrides, disturbances, faults of the rig's file, inhibitions. */
final class Doings {
    /** The keys of an injection that this reads. */
    static final List<String> KEYS = List.of("channels", "disturb", "fault", "inhibit");

    private final Names names;
    private final Findings findings;
    private final Values values;
    private final Forcings forcings;
    private final List<CompoundFault> compounds;

    Doings(Names names, Findings findings, Times times, List<CompoundFault> compounds) {
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
        this.forcings = new Forcings(findings, times);
        this.compounds = compounds;
    }

    /**
     * What is done.
     *
     * @param forcings in the order in which they act
     * @param whileHolds what the compound faults among it need to go on
     * @param touched channels that are forced, also where it could not be read how
     */
    record Done(List<Injection.Forcing> forcings, List<Condition> whileHolds, Set<ChannelDescription> touched) {}

    Done read(Fields fields) {
        Done done = new Done(new ArrayList<>(), new ArrayList<>(), new HashSet<>());
        if (KEYS.stream().allMatch(fields::lacks)) {
            fields.required("channels", "{ channel: stuck-at 5 A }");
        }
        fields.optional("channels").ifPresent(node -> channels(node, done));
        fields.optional("disturb").ifPresent(node -> disturb(node, done));
        fields.optional("fault").ifPresent(node -> compound(node, done));
        fields.optional("inhibit").ifPresent(node -> inhibit(node, done));
        return done;
    }

    private void channels(YamlNode node, Done done) {
        for (YamlMapping.Entry entry : entries(
                node, "channels with their faults", "{ channel: stuck-at 5 A }", "an injection without channels")) {
            Optional<ChannelDescription> channel = names.channel(new Part(entry.at(), entry.key()));
            if (channel.isPresent()) {
                List<Injection.Forcing> found = forcings.read(entry, channel.get());
                done.forcings().addAll(found);
                if (!found.isEmpty() || Injections.hasReading(channel.get())) {
                    done.touched().add(channel.get());
                }
            }
        }
    }

    private void disturb(YamlNode node, Done done) {
        String example = "{ obstacle.position: 220 mm }";
        for (YamlMapping.Entry entry :
                entries(node, "disturbances with their values", example, "an injection without disturbances")) {
            names.channel(new Part(entry.at(), entry.key()), Set.of(ChannelKind.DISTURBANCE), "a disturbance")
                    .flatMap(channel -> forcings.disturbance(entry, channel))
                    .ifPresent(done.forcings()::add);
        }
    }

    private List<YamlMapping.Entry> entries(YamlNode node, String what, String example, String ifEmpty) {
        Optional<YamlMapping> mapping = values.mapping(node, what, example);
        if (mapping.isPresent() && mapping.get().entries().isEmpty()) {
            findings.error(node.at(), ifEmpty, "write at least one: " + example);
        }
        return mapping.map(YamlMapping::entries).orElse(List.of()).stream()
                .filter(Injections::isReadable)
                .toList();
    }

    private void compound(YamlNode node, Done done) {
        Optional<Part> name = values.line(node, "the name of a fault");
        if (name.isEmpty()) {
            return;
        }
        Optional<CompoundFault> found = compounds.stream()
                .filter(one -> one.name().equals(name.get().text()))
                .findFirst();
        if (found.isEmpty()) {
            List<String> right = compounds.stream().map(CompoundFault::name).toList();
            findings.error(
                    name.get().at(),
                    "the rig's file has no compound fault "
                            + Shown.quoted(name.get().text()),
                    () -> NearestName.cure(name.get().text(), right));
            return;
        }
        for (Injection.Forcing one : found.get().forcings()) {
            done.forcings()
                    .add(new Injection.Forcing(findings.place(node.at()), one.channel(), one.fault(), one.gate()));
            done.touched().add(one.channel());
        }
        found.get().whileHolds().ifPresent(done.whileHolds()::add);
    }

    private void inhibit(YamlNode node, Done done) {
        for (YamlNode item : values.listOrOne(node, "a fail-safe or a list of them", "- FS-01")
                .orElse(List.of())) {
            inhibited(item).flatMap(names::inhibition).ifPresent(channel -> done.forcings()
                    .add(new Injection.Forcing(findings.place(item.at()), channel, new Fault.StuckAt(1))));
        }
    }

    /** A fail-safe that the rig can leave out. */
    Optional<FailSafeDescription> inhibited(YamlNode node) {
        Optional<FailSafeDescription> failSafe =
                values.line(node, "a fail-safe's name").flatMap(names::failSafe);
        if (failSafe.isPresent() && failSafe.get().inhibition().isEmpty()) {
            findings.error(
                    node.at(),
                    "the rig cannot leave out " + failSafe.get().name(),
                    "its control code has no inhibition for it");
            return Optional.empty();
        }
        return failSafe.filter(one -> one.inhibition().isPresent());
    }
}
