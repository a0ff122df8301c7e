package snagbench.bench.script.read;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Checked;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.wire.ChannelKind;

/** Reads a rig's fail-safe register, and checks it against what the rig tells of itself. */
public final class RegisterReader {
    /** Name of a register beside the rig's file. */
    public static final String FILE_NAME = "failsafes.yaml";

    private static final String WHAT = "a fail-safe register";
    private static final String SCRIPT_ENDING = ".fault.yaml";
    private static final List<String> KEYS = List.of("register", "severity-by", "scripts-in", "order", "failsafes");
    private static final List<String> ENTRY_KEYS = List.of(
            "name", "cause", "effect", "severity", "symptoms", "response", "recovery", "costs", "parts", "scripts");
    private static final String RECOVERY_EXAMPLE = "{ step: PARKED, within: 3 s }";

    private final RigDescription rig;
    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Names names;
    private final RegisterSymptoms symptoms;

    private RegisterReader(RigDescription rig, RigFile rigFile, Findings findings) {
        this.rig = rig;
        this.findings = findings;
        this.values = new Values(findings);
        this.times = new Times(findings, rig.limits().tickMicros());
        this.names = new Names(rig, findings);
        rigFile.derived().forEach(one -> names.addDerived(one.channel()));
        this.symptoms = new RegisterSymptoms(names, findings, times);
    }

    /**
     * Where a rig's register lies.
     *
     * @param rigYaml the rig's file
     * @return the register's file, beside it; it need not be there
     */
    public static Path registerOf(Path rigYaml) {
        return rigYaml.resolveSibling(FILE_NAME);
    }

    /**
     * Reads a register.
     *
     * @param file of the register
     * @param rig what the rig tells of itself
     * @param rigFile what people know of the rig, with its derived channels
     * @return the register if it is good, and all problems
     */
    public static Checked<FailSafeRegister> read(Path file, RigDescription rig, RigFile rigFile) {
        UserFile opened = UserFile.open(file, WHAT, "register: seedling-shuttle");
        Findings findings = opened.findings();
        return findings.with(
                opened.root().map(root -> new RegisterReader(rig, rigFile, findings).register(file, root, rigFile)));
    }

    private FailSafeRegister register(Path file, YamlMapping root, RigFile rigFile) {
        Fields fields = Fields.of(root, WHAT, KEYS, Set.of(), findings);
        fields.required("register", rigFile.name())
                .flatMap(node -> values.line(node, "the rig's name"))
                .filter(name -> !name.text().equals(rigFile.name()))
                .ifPresent(name -> findings.error(
                        name.at(),
                        "this is the register of " + Shown.quoted(name.text()) + ", and lies beside the file of rig "
                                + Shown.quoted(rigFile.name()),
                        "write the name of that rig"));
        String severityBy = line(fields, "severity-by", "a standard");
        Optional<Path> scripts = fields.optional("scripts-in")
                .flatMap(node -> values.line(node, "the folder of the scripts"))
                .flatMap(part -> scriptFolder(part, file));
        List<FailSafeRegister.Entry> entries = fields.required("failsafes", "{ FS-01: ... }")
                .flatMap(node -> values.mapping(node, "the fail-safes by their names", "FS-01: { name: ... }"))
                .map(mapping ->
                        entries(mapping, fields.has("scripts-in") ? scripts : Optional.of(file.resolveSibling(""))))
                .orElse(List.of());
        return new FailSafeRegister(findings.place(root.at()), rigFile.name(), severityBy, order(fields), entries);
    }

    /** Those that are not in it have no place in the order. */
    private List<FailSafeDescription> order(Fields fields) {
        List<FailSafeDescription> order = new ArrayList<>();
        for (YamlNode node : fields.optional("order")
                .flatMap(
                        list -> values.list(list, "a list of fail-safes, the first of which answers", "[FS-02, FS-01]"))
                .orElse(List.of())) {
            Optional<Part> name = values.line(node, "a fail-safe");
            Optional<FailSafeDescription> failSafe = name.flatMap(names::failSafe);
            if (failSafe.isPresent() && order.contains(failSafe.get())) {
                findings.error(node.at(), failSafe.get().name() + " is in the order already", "take one of them out");
            } else {
                failSafe.ifPresent(order::add);
            }
        }
        return order;
    }

    private Optional<Path> scriptFolder(Part part, Path file) {
        Optional<Path> folder = resolve(file.resolveSibling(""), part).filter(Files::isDirectory);
        if (folder.isEmpty()) {
            findings.error(
                    part.at(),
                    "there is no folder " + Shown.quoted(part.text()),
                    "it is looked for from the register's own folder on");
        }
        return folder;
    }

    private static Optional<Path> resolve(Path folder, Part name) {
        try {
            return Optional.of(folder.resolve(name.text()).normalize());
        } catch (InvalidPathException e) {
            return Optional.empty();
        }
    }

    private List<FailSafeRegister.Entry> entries(YamlMapping mapping, Optional<Path> folder) {
        List<FailSafeRegister.Entry> entries = new ArrayList<>();
        Set<String> named = new HashSet<>();
        for (YamlMapping.Entry entry : mapping.entries()) {
            named.add(entry.key());
            Optional<FailSafeDescription> failSafe = names.failSafe(new Part(entry.at(), entry.key()));
            Optional<YamlMapping> content =
                    values.mapping(entry.value(), "what is known of " + Shown.quoted(entry.key()), "{ name: ... }");
            if (failSafe.isPresent() && content.isPresent()) {
                entry(entry, failSafe.get(), content.get(), folder).ifPresent(entries::add);
            }
        }
        String lacking = rig.failSafes().stream()
                .map(FailSafeDescription::name)
                .filter(name -> !named.contains(name))
                .collect(Collectors.joining(", "));
        if (!lacking.isEmpty()) {
            findings.error(
                    mapping.at(),
                    "the register lacks fail-safes that the rig has: " + lacking,
                    "write what each is for, even if no script proves it yet");
        }
        return entries;
    }

    private Optional<FailSafeRegister.Entry> entry(
            YamlMapping.Entry at, FailSafeDescription failSafe, YamlMapping content, Optional<Path> folder) {
        Fields fields = Fields.of(content, "fail-safe " + failSafe.name(), ENTRY_KEYS, Set.of(), findings);
        String title = required(fields, "name", "what it is called");
        String cause = required(fields, "cause", "what makes it necessary");
        String effect = required(fields, "effect", "what would come of it");
        Optional<FailSafeRegister.Severity> severity = fields.required("severity", "III")
                .flatMap(node -> values.line(node, "a severity"))
                .flatMap(this::severity);
        Optional<FailSafeRegister.Symptoms> seen =
                fields.required("symptoms", "{ words: ..., when: [...] }").flatMap(symptoms::read);
        String response = required(fields, "response", "what the machine does");
        Optional<FailSafeRegister.Recovery> recovery =
                fields.required("recovery", RECOVERY_EXAMPLE).flatMap(this::recovery);
        FailSafeRegister.Costs costs =
                fields.optional("costs").map(this::costs).orElse(new FailSafeRegister.Costs(Optional.empty(), ""));
        List<String> parts = fields
                .required("parts", "[reach motor]")
                .flatMap(node -> values.listOrOne(node, "a list of parts of the machine", "- reach motor"))
                .orElse(List.of())
                .stream()
                .flatMap(node -> values.line(node, "a part of the machine").stream())
                .map(Part::text)
                .toList();
        List<Path> scripts = fields
                .optional("scripts")
                .flatMap(node -> values.listOrOne(node, "a list of scripts", "- reach-blocked-midway"))
                .orElse(List.of())
                .stream()
                .flatMap(node -> values.line(node, "a script's name").stream())
                .flatMap(part -> script(part, folder).stream())
                .toList();
        if (severity.isEmpty() || seen.isEmpty() || recovery.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new FailSafeRegister.Entry(
                findings.place(at.at()),
                failSafe,
                title,
                cause,
                effect,
                severity.get(),
                seen.get(),
                response,
                recovery.get(),
                costs,
                parts,
                scripts));
    }

    private String required(Fields fields, String key, String what) {
        return fields.required(key, what)
                .flatMap(node -> values.words(node, what))
                .orElse("");
    }

    private String line(Fields fields, String key, String what) {
        return fields.optional(key)
                .flatMap(node -> values.line(node, what))
                .map(Part::text)
                .orElse("");
    }

    private FailSafeRegister.Costs costs(YamlNode node) {
        Optional<Fields> fields = values.mapping(node, "what it costs", "{ reserve: 0.6 s .. 0.8 s }")
                .map(mapping -> Fields.of(mapping, "\"costs\"", List.of("reserve", "words"), Set.of(), findings));
        return new FailSafeRegister.Costs(
                fields.flatMap(one -> one.optional("reserve")).map(times::window),
                fields.map(one -> line(one, "words", "what it costs")).orElse(""));
    }

    private Optional<FailSafeRegister.Severity> severity(Part word) {
        Optional<FailSafeRegister.Severity> severity = Arrays.stream(FailSafeRegister.Severity.values())
                .filter(one -> one.name().equals(word.text()))
                .findFirst();
        if (severity.isEmpty()) {
            findings.error(
                    word.at(),
                    "there is no severity " + Shown.quoted(word.text()),
                    "write I, II, III or IV: I is the worst");
        }
        return severity;
    }

    /** A script of the folder; where that is not there, which has been told, none of its scripts is missed. */
    private Optional<Path> script(Part name, Optional<Path> folder) {
        if (folder.isEmpty()) {
            return Optional.empty();
        }
        Optional<Path> file = resolve(folder.get(), new Part(name.at(), name.text() + SCRIPT_ENDING));
        if (file.filter(Files::isRegularFile).isEmpty()) {
            findings.error(
                    name.at(),
                    "there is no script " + Shown.quoted(name.text() + SCRIPT_ENDING),
                    file.map(UserFile::siblings).orElse(""));
            return Optional.empty();
        }
        return file;
    }

    private Optional<FailSafeRegister.Recovery> recovery(YamlNode node) {
        Optional<YamlMapping> mapping = values.mapping(node, "a recovery state", RECOVERY_EXAMPLE);
        if (mapping.isEmpty()) {
            return Optional.empty();
        }
        Optional<YamlMapping.Entry> limit = mapping.get().entries().stream()
                .filter(entry -> entry.key().equals("within"))
                .findFirst();
        List<YamlMapping.Entry> states = mapping.get().entries().stream()
                .filter(entry -> !entry.key().equals("within"))
                .toList();
        if (limit.isEmpty() || states.size() != 1) {
            findings.error(
                    node.at(),
                    "a recovery is one state, and the time allowed for it",
                    "write it as: " + RECOVERY_EXAMPLE);
            return Optional.empty();
        }
        long within = times.micros(limit.get().value(), "the time allowed");
        Part name = new Part(states.get(0).at(), states.get(0).key());
        Optional<ChannelDescription> channel =
                name.text().equals("step") ? rig.step() : names.channel(name, Set.of(ChannelKind.STATE), "a state");
        if (channel.isEmpty()) {
            return Optional.empty();
        }
        ChannelValues channelValues = new ChannelValues(findings);
        List<Integer> raws = new ArrayList<>();
        for (YamlNode value : values.listOrOne(states.get(0).value(), "a state or a list of them", "- PARKED")
                .orElse(List.of())) {
            values.line(value, "a value of " + channel.get().name())
                    .map(part -> channelValues.raw(part, channel.get(), Rounding.NONE))
                    .ifPresent(raw -> raw.ifPresent(raws::add));
        }
        return raws.isEmpty()
                ? Optional.empty()
                : Optional.of(new FailSafeRegister.Recovery(channel.get(), raws, within));
    }
}
