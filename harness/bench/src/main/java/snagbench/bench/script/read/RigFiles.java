package snagbench.bench.script.read;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Checked;
import snagbench.bench.script.CompoundFault;
import snagbench.bench.script.Condition;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.Problem;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.wire.Wire;

/** Reads {@code rig.yaml}: what only people know of a rig. */
public final class RigFiles {
    /** Name of a rig's file in its folder. */
    public static final String FILE_NAME = "rig.yaml";

    /** Name of the stored description beside it. */
    public static final String SNAPSHOT_NAME = "rig.snapshot.json";

    private static final String WHAT = "a rig's file";
    private static final String EXAMPLE = "rig: seedling-shuttle";
    private static final List<String> KEYS = List.of(
            "rig",
            "virtual",
            "port",
            "baud",
            "lease",
            "settling-time",
            "ready",
            "guards",
            "channels",
            "clear-floor",
            "derived",
            "compound-faults",
            "adjust");
    private static final Set<String> LATER = Set.of("not-covered", "register");

    private static final int HIGHEST_BAUD = 10_000_000;
    private static final long LEAST_LEASE_MICROS = 100_000;
    private static final long MOST_LEASE_MICROS = 1000L * Wire.LONGEST_LEASE_MILLIS;
    private static final long USUAL_LEASE_MICROS = 500_000;
    private static final long USUAL_SETTLING_MICROS = 500_000;

    private final RigDescription rig;
    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Names names;
    private final Conditions conditions;

    private RigFiles(RigDescription rig, Findings findings) {
        this.rig = rig;
        this.findings = findings;
        this.values = new Values(findings);
        this.times = new Times(findings, rig.limits().tickMicros());
        this.names = new Names(rig, findings);
        this.conditions = new Conditions(names, findings, times, new Anchors(findings));
    }

    /**
     * Where a rig's description is stored.
     *
     * @param rigYaml the rig's file
     * @return the snapshot's file, beside it
     */
    public static Path snapshotOf(Path rigYaml) {
        return rigYaml.resolveSibling(SNAPSHOT_NAME);
    }

    /**
     * Reads a rig's file against what the rig tells of itself.
     *
     * @param rigYaml the file
     * @param live the description that a connected rig has given; empty for the snapshot beside the file
     * @return the file if it is good, and all problems, those of the snapshot among them
     */
    public static Checked<RigFile> readRig(Path rigYaml, Optional<RigDescription> live) {
        UserFile opened = UserFile.open(rigYaml, WHAT, EXAMPLE);
        Findings findings = opened.findings();
        if (opened.root().isEmpty()) {
            return findings.with(Optional.empty());
        }
        if (live.isPresent()) {
            return findings.with(read(rigYaml, opened.root().get(), live.get(), findings));
        }
        Path snapshot = snapshotOf(rigYaml);
        if (!Files.exists(snapshot)) {
            findings.error(
                    opened.root().get().at(),
                    "the rig's own description is not stored beside this file (" + SNAPSHOT_NAME + ")",
                    "\"identify --save\" asks the rig and stores it");
            return findings.with(Optional.empty());
        }
        Checked<RigDescription> stored = Snapshots.read(snapshot);
        if (stored.value().isEmpty()) {
            return new Checked<>(Optional.empty(), stored.problems());
        }
        Checked<RigFile> read =
                findings.with(read(rigYaml, opened.root().get(), stored.value().get(), findings));
        List<Problem> all = new ArrayList<>(stored.problems());
        all.addAll(read.problems());
        return new Checked<>(read.value(), all);
    }

    /**
     * Reads only which virtual rig a file asks for; no description is wanted for that.
     *
     * @param rigYaml the file
     * @return the provider's name, empty for a rig on a cable, and the problems that keep it from being read
     */
    public static Checked<Optional<String>> providerOf(Path rigYaml) {
        UserFile opened = UserFile.open(rigYaml, WHAT, EXAMPLE);
        Findings findings = opened.findings();
        if (opened.root().isEmpty()) {
            return findings.with(Optional.empty());
        }
        Optional<String> provider = opened.root().get().entries().stream()
                .filter(entry -> entry.key().equals("virtual"))
                .findFirst()
                .flatMap(entry -> new Values(findings).line(entry.value(), "the name of a virtual rig"))
                .map(Part::text);
        return findings.with(Optional.of(provider));
    }

    /**
     * Reads only on which serial line a file says that its rig hangs; no description is wanted for that.
     *
     * @param rigYaml the file
     * @return the line, and the problems that keep it from being read
     */
    public static Checked<RigFile.SerialLine> lineOf(Path rigYaml) {
        UserFile opened = UserFile.open(rigYaml, WHAT, EXAMPLE);
        Findings findings = opened.findings();
        if (opened.root().isEmpty()) {
            return findings.with(Optional.empty());
        }
        // Keys that mean nothing are told where the file is read as a whole.
        Fields fields = Fields.of(opened.root().get(), WHAT, KEYS, LATER, new Findings(rigYaml, List.of()));
        return findings.with(Optional.of(line(fields, new Values(findings), findings)));
    }

    private static RigFile.SerialLine line(Fields fields, Values values, Findings findings) {
        Optional<String> port = fields.optional("port")
                .flatMap(node -> values.line(node, "the path of a serial port"))
                .filter(part -> isWholePath(part, findings))
                .map(Part::text);
        int baud = fields.optional("baud")
                .flatMap(node -> values.line(node, "bits a second"))
                .map(part -> WholeNumber.read(part, 1, HIGHEST_BAUD, "a number of bits a second", findings))
                .orElse(RigFile.SerialLine.USUAL_BAUD);
        return new RigFile.SerialLine(port, baud);
    }

    private static boolean isWholePath(Part part, Findings findings) {
        boolean whole = part.text().startsWith("/");
        if (!whole) {
            findings.error(
                    part.at(),
                    Shown.quoted(part.text()) + " is not the whole path of a serial port",
                    "\"ports\" lists them; one from /dev/serial/by-id stays the same whatever else is plugged in");
        }
        return whole;
    }

    private static Optional<RigFile> read(Path file, YamlMapping root, RigDescription rig, Findings findings) {
        return new RigFiles(rig, findings).file(file, root);
    }

    private Optional<RigFile> file(Path file, YamlMapping root) {
        Fields fields = Fields.of(root, WHAT, KEYS, LATER, findings);
        Optional<Part> rigName = fields.required("rig", "NAME").flatMap(node -> values.line(node, "the rig's name"));
        String name = rigName.flatMap(part -> RigName.check(part, findings)).orElse("");
        rigName.filter(part -> !name.isEmpty()).ifPresent(part -> RigName.compareWithFolder(part, file, findings));
        requireOneWay(fields);
        Optional<String> virtual = fields.optional("virtual")
                .flatMap(node -> values.line(node, "the name of a virtual rig"))
                .map(Part::text);
        long lease = fields.optional("lease").map(this::lease).orElse(USUAL_LEASE_MICROS);
        long settling = fields.optional("settling-time")
                .map(node -> times.micros(node, "a settling time"))
                .orElse(USUAL_SETTLING_MICROS);
        Optional<RigFile.Ready> ready = fields.optional("ready").flatMap(this::ready);
        List<RigFile.GuardSpec> guards = fields.optional("guards")
                .map(new Guards(rig, names, findings, times)::read)
                .orElse(List.of());
        Wiring wiring = new Wiring(names, findings, times);
        fields.optional("channels").ifPresent(wiring::read);
        Map<String, Integer> clearFloor =
                fields.optional("clear-floor").map(wiring::clearFloor).orElse(Map.of());
        List<DerivedChannel> derived = fields.optional("derived")
                .map(new DerivedChannels(names, findings, times, conditions)::read)
                .orElse(List.of());
        List<CompoundFault> compounds = fields.optional("compound-faults")
                .map(new CompoundFaults(names, findings, times, conditions)::read)
                .orElse(List.of());
        List<RigFile.Adjustable> adjustable = fields.optional("adjust")
                .map(new Adjustables(names, findings)::read)
                .orElse(List.of());
        return Optional.of(new RigFile(
                findings.place(root.at()),
                name,
                virtual,
                line(fields, values, findings),
                (int) (lease / 1000),
                settling,
                ready,
                guards,
                wiring.wired(),
                snapshotOf(file),
                derived,
                compounds,
                wiring.filterDelays(),
                clearFloor,
                adjustable));
    }

    /** A rig is a virtual one, or hangs on a cable. */
    private void requireOneWay(Fields fields) {
        if (fields.lacks("virtual") && fields.lacks("port")) {
            findings.error(
                    fields.at(),
                    WHAT + " lacks \"virtual\" or \"port\"",
                    "add \"virtual: NAME\" for a virtual rig, or \"port: /dev/...\" for one on a cable");
        } else if (fields.has("virtual") && fields.has("port")) {
            findings.error(
                    fields.at("port"),
                    "this rig is a virtual one, and has a port as well",
                    "take one of both out; one that is served is driven with \"--port\" on the command line");
        }
    }

    private long lease(YamlNode node) {
        long micros = times.micros(node, "a lease");
        boolean inRange = micros >= LEAST_LEASE_MICROS && micros <= MOST_LEASE_MICROS && micros % 1000 == 0;
        if (micros > 0 && !inRange) {
            findings.error(
                    node.at(),
                    "a lease of " + micros / 1000.0 + " ms",
                    "whole milliseconds from 100 ms to 10 s will do; the rig stops that long after the harness has gone");
        }
        return micros;
    }

    private Optional<RigFile.Ready> ready(YamlNode node) {
        String example = "{ send: ready, wait-for: { step: READY }, within: 10 s }";
        Optional<YamlMapping> mapping = values.mapping(node, "how the rig is brought to ready", example);
        if (mapping.isEmpty()) {
            return Optional.empty();
        }
        Fields fields =
                Fields.of(mapping.get(), "\"ready\"", List.of("send", "wait-for", "within"), Set.of(), findings);
        Stages stages = new Stages(names, findings, times, conditions);
        Optional<ChannelDescription> command = fields.required("send", "ready").flatMap(stages::command);
        Optional<Condition> condition =
                fields.required("wait-for", "{ step: READY }").flatMap(value -> conditions.read(value, Use.WAIT_FOR));
        long within = fields.required("within", "10 s")
                .map(value -> times.micros(value, "a limit"))
                .orElse(0L);
        if (command.isEmpty() || condition.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new RigFile.Ready(command.get(), condition.get(), within));
    }
}
