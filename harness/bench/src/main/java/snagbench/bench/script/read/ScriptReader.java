package snagbench.bench.script.read;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.Checked;
import snagbench.bench.script.CompoundFault;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.FaultScript.Need;
import snagbench.bench.script.Injection;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.Stage;
import snagbench.bench.script.Variant;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;
import snagbench.bench.script.yaml.YamlScalar;

/** Reads fault scripts, and checks them against a rig. One file stands for several scripts where it varies something. */
public final class ScriptReader {
    private static final String WHAT = "a fault script";
    private static final String EXAMPLE = "fault-script: what happens";
    private static final List<String> KEYS = List.of(
            "fault-script",
            "failsafe",
            "why",
            "needs",
            "vary",
            "inhibit",
            "derived",
            "begin",
            "inject",
            "expect",
            "end");

    private final RigDescription rig;
    private final Optional<RigFile> rigFile;
    private final Symptoms.Register symptoms;
    private final Optional<Variant> variant;
    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Names names;
    private final Conditions conditions;
    private final Anchors anchors;

    private ScriptReader(
            RigDescription rig,
            Optional<RigFile> rigFile,
            Symptoms.Register symptoms,
            Optional<Variant> variant,
            Findings findings) {
        this.rig = rig;
        this.symptoms = symptoms;
        this.rigFile = rigFile;
        this.variant = variant;
        this.findings = findings;
        this.values = new Values(findings);
        this.times = new Times(findings, rig.limits().tickMicros());
        this.names = new Names(rig, findings);
        this.anchors = new Anchors(findings);
        this.conditions = new Conditions(names, findings, times, anchors);
    }

    /**
     * Reads a script that varies nothing, for a rig of which people know nothing: no guards, no faults of its own.
     *
     * @param file of the script
     * @param rig what the rig tells of itself
     * @return the script if it is good, and all problems
     */
    public static Checked<FaultScript> read(Path file, RigDescription rig) {
        return single(readAll(file, rig, Optional.empty()));
    }

    /**
     * Reads a script that varies nothing.
     *
     * @param file of the script
     * @param rig what the rig tells of itself
     * @param rigFile what people know of the rig, with its guards
     * @return the script if it is good, and all problems; of a file that varies something, its first script
     */
    public static Checked<FaultScript> read(Path file, RigDescription rig, RigFile rigFile) {
        return single(readAll(file, rig, Optional.of(rigFile)));
    }

    /**
     * Reads all scripts that a file stands for.
     *
     * @param file of the script
     * @param rig what the rig tells of itself
     * @param rigFile what people know of the rig, with its guards
     * @return one script, or one for each variant, in the order of the file; empty if there is an error in any of them; and
     *     all problems
     */
    public static Checked<List<FaultScript>> readAll(Path file, RigDescription rig, RigFile rigFile) {
        return readAll(file, rig, Optional.of(rigFile));
    }

    private static Checked<FaultScript> single(Checked<List<FaultScript>> all) {
        return new Checked<>(all.value().map(scripts -> scripts.get(0)), all.problems());
    }

    private static Checked<List<FaultScript>> readAll(Path file, RigDescription rig, Optional<RigFile> rigFile) {
        UserFile opened = UserFile.open(file, WHAT, EXAMPLE);
        Findings findings = opened.findings();
        if (opened.root().isEmpty()) {
            return findings.with(Optional.empty());
        }
        YamlMapping root = opened.root().get();
        Symptoms.Register symptoms = new Symptoms.Register(rigFile, rig);
        if (root.entries().stream().noneMatch(entry -> entry.key().equals("vary"))) {
            return findings.with(new ScriptReader(rig, rigFile, symptoms, Optional.empty(), findings)
                    .script(root)
                    .map(List::of));
        }
        List<Variant> variants = Variants.of(root, findings);
        VariantFindings each = new VariantFindings(findings, variants.size());
        List<FaultScript> scripts = new ArrayList<>();
        for (Variant variant : variants) {
            Findings own = findings.anew();
            new ScriptReader(rig, rigFile, symptoms, Optional.of(variant), own)
                    .script(new Substitution(variant, own).in(root))
                    .ifPresent(scripts::add);
            each.add(variant, own);
        }
        each.report();
        return findings.with(scripts.isEmpty() ? Optional.empty() : Optional.of(List.copyOf(scripts)));
    }

    private Optional<FaultScript> script(YamlMapping root) {
        Fields fields = Fields.of(root, WHAT, KEYS, Set.of(), findings);
        String name = fields.required("fault-script", "what happens")
                .flatMap(node -> values.line(node, "the script's name"))
                .map(Part::text)
                .orElse("");
        List<FailSafeDescription> failSafes =
                fields.optional("failsafe").map(this::failSafes).orElse(List.of());
        String why = fields.optional("why")
                .flatMap(node -> values.text(node, "a text"))
                .map(this::reason)
                .orElse("");
        Set<Need> needs = fields.optional("needs").map(this::needs).orElse(Set.of());
        List<DerivedChannel> derived = derived(fields);
        List<Stage> begin = fields.optional("begin")
                .map(new Stages(names, findings, times, conditions)::read)
                .orElse(List.of());
        List<CompoundFault> compounds = rigFile.map(RigFile::compounds).orElse(List.of());
        Doings doings = new Doings(names, findings, times, compounds);
        List<FailSafeDescription> inhibited =
                fields.optional("inhibit").map(node -> inhibited(node, doings)).orElse(List.of());
        Injections injectionReader = new Injections(findings, times, conditions, anchors, doings);
        Expectations expectationReader = new Expectations(names, findings, times, conditions, anchors);
        List<Injections.Draft> injectionDrafts = fields.required("inject", "a list of injections")
                .map(injectionReader::drafts)
                .orElse(List.of());
        List<Expectations.Draft> expectationDrafts = fields.required("expect", "a list of expectations")
                .map(expectationReader::drafts)
                .orElse(List.of());
        List<Injection> injections = injectionReader.read(injectionDrafts);
        List<Expectation> expectations = expectationReader.read(expectationDrafts);
        Optional<FaultScript.End> end = fields.optional("end").flatMap(this::end);
        anchors.reportCircles();
        OverriddenChannels.check(injectionReader.overridden(), conditions.mentions(), findings);
        FaultScript script = new FaultScript(
                findings.place(root.at()),
                name,
                failSafes,
                why,
                needs,
                begin,
                injections,
                expectations,
                end,
                inhibited,
                derived,
                variant);
        if (!findings.hasErrors()) {
            RigAnchors.check(script, findings);
        }
        if (!findings.hasErrors()) {
            ProgramFit.check(script, rig.limits(), findings);
            LastingFaults.check(script, rig, rigFile, findings);
        }
        if (!findings.hasErrors()) {
            WholeScript.check(script, fields, findings);
            Suspicions.check(script, symptoms, rigFile, fields, findings);
        }
        return Optional.of(
                findings.hasErrors()
                        ? script
                        : new Twins(findings)
                                .of(root, this::anew)
                                .map(twin -> script.withTwin(twin.injections()))
                                .orElse(script));
    }

    /** The script as its twin is written, read as if it were a script of its own. */
    private Optional<FaultScript> anew(YamlMapping twin, Findings own) {
        return new ScriptReader(rig, rigFile, symptoms, variant, own).script(twin);
    }

    /** The reason; a key that is indented behind it is a part of its text to YAML, and lost. */
    private String reason(YamlScalar text) {
        for (int number = text.at().line() + 1; number <= text.lastLine(); number++) {
            String line = findings.line(number);
            String stripped = line.strip();
            for (String key : KEYS) {
                if (stripped.startsWith(key + ":") && line.startsWith(" ")) {
                    findings.warning(
                            new Position(number, line.indexOf(stripped) + 1),
                            "to YAML this line is a part of the text of \"why\"",
                            "if \"" + key + "\" is meant, take the spaces in front of it away");
                }
            }
        }
        return text.text().strip();
    }

    /** Those of the rig's file, then those of the script. */
    private List<DerivedChannel> derived(Fields fields) {
        List<DerivedChannel> derived =
                new ArrayList<>(rigFile.map(RigFile::derived).orElse(List.of()));
        derived.forEach(one -> names.addDerived(one.channel()));
        fields.optional("derived")
                .map(new DerivedChannels(names, findings, times, conditions)::read)
                .ifPresent(derived::addAll);
        return derived;
    }

    private List<FailSafeDescription> inhibited(YamlNode node, Doings doings) {
        List<FailSafeDescription> found = new ArrayList<>();
        for (YamlNode item : values.listOrOne(node, "a fail-safe or a list of them", "- FS-01")
                .orElse(List.of())) {
            doings.inhibited(item).ifPresent(found::add);
        }
        return found;
    }

    private List<FailSafeDescription> failSafes(YamlNode node) {
        List<FailSafeDescription> found = new ArrayList<>();
        for (YamlNode item : values.listOrOne(node, "a fail-safe or a list of them", "- FS-01")
                .orElse(List.of())) {
            values.line(item, "a fail-safe's name").flatMap(names::failSafe).ifPresent(found::add);
        }
        return found;
    }

    private Set<Need> needs(YamlNode node) {
        Set<Need> needs = EnumSet.noneOf(Need.class);
        for (YamlNode item :
                values.listOrOne(node, "a list of needs", "- motion").orElse(List.of())) {
            values.line(item, "a need").flatMap(this::need).ifPresent(needs::add);
        }
        return needs;
    }

    private Optional<Need> need(Part word) {
        Optional<Need> need = Arrays.stream(Need.values())
                .filter(one -> one.word().equals(word.text()))
                .findFirst();
        if (need.isEmpty()) {
            List<String> words = Arrays.stream(Need.values()).map(Need::word).toList();
            findings.error(
                    word.at(),
                    "there is no need " + Shown.quoted(word.text()),
                    () -> NearestName.cure(word.text(), words));
        }
        return need;
    }

    private Optional<FaultScript.End> end(YamlNode node) {
        Optional<Part> text = values.line(node, "the script's end");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        String example = "write it as: 2 s after begin";
        int after = text.get().text().indexOf(" after ");
        if (after < 0) {
            findings.error(
                    text.get().at(),
                    Shown.quoted(text.get().text()) + " does not say after what the script ends",
                    example);
            return Optional.empty();
        }
        long micros = times.micros(text.get().between(0, after), "the time to the end");
        return anchors.find(text.get().from(after + " after ".length()))
                .map(anchor -> new FaultScript.End(findings.place(node.at()), micros, anchor));
    }
}
