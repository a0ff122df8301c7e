package snagbench.bench.script.read;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.FaultScript.Need;
import snagbench.bench.script.Injection;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.Stage;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/** Reads fault scripts, and checks them against a rig. */
public final class ScriptReader {
    private static final String WHAT = "a fault script";
    private static final String EXAMPLE = "fault-script: what happens";
    private static final List<String> KEYS =
            List.of("fault-script", "failsafe", "why", "needs", "begin", "inject", "expect", "end");
    private static final Set<String> LATER = Set.of("vary", "control-runs", "parameters");

    private final RigDescription rig;
    private final Optional<RigFile> rigFile;
    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Names names;
    private final Conditions conditions;
    private final Anchors anchors;

    private ScriptReader(RigDescription rig, Optional<RigFile> rigFile, Findings findings) {
        this.rig = rig;
        this.rigFile = rigFile;
        this.findings = findings;
        this.values = new Values(findings);
        this.times = new Times(findings, rig.limits().tickMicros());
        this.names = new Names(rig, findings);
        this.conditions = new Conditions(names, findings);
        this.anchors = new Anchors(findings);
    }

    /**
     * Reads a script for a rig without guards.
     *
     * @param file of the script
     * @param rig what the rig tells of itself
     * @return the script if it is good, and all problems
     */
    public static Checked<FaultScript> read(Path file, RigDescription rig) {
        return read(file, rig, Optional.empty());
    }

    /**
     * Reads a script.
     *
     * @param file of the script
     * @param rig what the rig tells of itself
     * @param rigFile what people know of the rig, with its guards
     * @return the script if it is good, and all problems
     */
    public static Checked<FaultScript> read(Path file, RigDescription rig, RigFile rigFile) {
        return read(file, rig, Optional.of(rigFile));
    }

    private static Checked<FaultScript> read(Path file, RigDescription rig, Optional<RigFile> rigFile) {
        UserFile opened = UserFile.open(file, WHAT, EXAMPLE);
        Findings findings = opened.findings();
        return findings.with(opened.root().flatMap(root -> new ScriptReader(rig, rigFile, findings).script(root)));
    }

    private Optional<FaultScript> script(YamlMapping root) {
        Fields fields = Fields.of(root, WHAT, KEYS, LATER, findings);
        String name = fields.required("fault-script", "what happens")
                .flatMap(node -> values.line(node, "the script's name"))
                .map(Part::text)
                .orElse("");
        List<FailSafeDescription> failSafes =
                fields.optional("failsafe").map(this::failSafes).orElse(List.of());
        String why = fields.optional("why")
                .flatMap(node -> values.text(node, "a text"))
                .map(text -> text.text().strip())
                .orElse("");
        Set<Need> needs = fields.optional("needs").map(this::needs).orElse(Set.of());
        List<Stage> begin = fields.optional("begin")
                .map(new Stages(names, findings, times, conditions)::read)
                .orElse(List.of());
        Injections injectionReader = new Injections(names, findings, times, conditions, anchors);
        List<Injection> injections = fields.required("inject", "a list of injections")
                .map(injectionReader::read)
                .orElse(List.of());
        List<Expectation> expectations = fields.required("expect", "a list of expectations")
                .map(new Expectations(names, findings, times, conditions, anchors)::read)
                .orElse(List.of());
        Optional<FaultScript.End> end = fields.optional("end").flatMap(this::end);
        OverriddenChannels.check(injectionReader.overridden(), conditions.mentions(), findings);
        FaultScript script = new FaultScript(
                findings.place(root.at()), name, failSafes, why, needs, begin, injections, expectations, end);
        ProgramFit.check(script, rig.limits(), findings);
        LastingFaults.check(script, rig, rigFile, findings);
        if (!findings.hasErrors()) {
            WholeScript.check(script, fields, findings);
        }
        return Optional.of(script);
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
                    word.at(), "there is no need " + Shown.quoted(word.text()), NearestName.cure(word.text(), words));
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
