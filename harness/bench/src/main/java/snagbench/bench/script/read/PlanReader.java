package snagbench.bench.script.read;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.Checked;
import snagbench.bench.script.TestPlan;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/** Reads test plans. */
public final class PlanReader {
    private static final String WHAT = "a test plan";
    private static final List<String> KEYS =
            List.of("test-plan", "rig", "build", "run-time", "reserve", "scripts", "control-runs", "adequacy");
    private static final Set<String> LATER = Set.of("between");
    private static final int MOST_REPEATS = 10_000;

    private final Path folder;
    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Map<Path, Position> seen = new HashMap<>();

    private PlanReader(Path file, Findings findings) {
        this.folder = Optional.ofNullable(file.getParent()).orElse(Path.of(""));
        this.findings = findings;
        this.values = new Values(findings);
        this.times = new Times(findings, 0);
    }

    /**
     * Reads a plan; the scripts that it names must be there, and are not read.
     *
     * @param file of the plan
     * @return the plan if it is good, with the scripts' files as seen from the current folder, and all problems
     */
    public static Checked<TestPlan> read(Path file) {
        UserFile opened = UserFile.open(file, WHAT, "test-plan: what it is for");
        Findings findings = opened.findings();
        return findings.with(opened.root().flatMap(root -> new PlanReader(file, findings).plan(root)));
    }

    private Optional<TestPlan> plan(YamlMapping root) {
        Fields fields = Fields.of(root, WHAT, KEYS, LATER, findings);
        String name = fields.required("test-plan", "what it is for")
                .flatMap(node -> values.line(node, "the plan's name"))
                .map(Part::text)
                .orElse("");
        String rig = fields.required("rig", "NAME")
                .flatMap(node -> values.line(node, "the rig's name"))
                .flatMap(part -> RigName.check(part, findings))
                .orElse("");
        Optional<String> build = fields.optional("build")
                .flatMap(node -> values.line(node, "the name of a build"))
                .map(Part::text);
        long runTime = fields.required("run-time", "30 s")
                .map(node -> times.harnessMicros(node, "a run time", true))
                .orElse(0L);
        long reserve = fields.required("reserve", "5 s")
                .map(node -> times.harnessMicros(node, "a reserve", false))
                .orElse(0L);
        if (runTime > 0 && reserve > runTime) {
            findings.error(
                    fields.at("reserve"), "the reserve is longer than the run itself", "it is a part of the run time");
        }
        List<TestPlan.PlannedScript> scripts =
                fields.required("scripts", "a list of files").map(this::scripts).orElse(List.of());
        Switches switches = new Switches(findings);
        return Optional.of(new TestPlan(
                findings.place(root.at()),
                name,
                rig,
                build,
                runTime,
                reserve,
                scripts,
                fields.optional("control-runs").map(switches::controls).orElse(new TestPlan.Controls(false, false)),
                fields.optional("adequacy").map(switches::adequacy).orElse(new TestPlan.AdequacyAsked(false, false))));
    }

    private List<TestPlan.PlannedScript> scripts(YamlNode node) {
        List<TestPlan.PlannedScript> scripts = new ArrayList<>();
        for (YamlNode item :
                values.list(node, "a list of scripts", "- name.fault.yaml").orElse(List.of())) {
            if (item instanceof YamlMapping mapping) {
                repeated(mapping).ifPresent(scripts::add);
            } else {
                values.line(item, "a script's file name")
                        .flatMap(part -> script(part, 1))
                        .ifPresent(scripts::add);
            }
        }
        return scripts;
    }

    private Optional<TestPlan.PlannedScript> repeated(YamlMapping mapping) {
        String example = "name.fault.yaml: { repeat: 5 }";
        if (mapping.entries().size() != 1) {
            findings.error(mapping.at(), "one item of the list is one script", "write it as: - " + example);
            return Optional.empty();
        }
        YamlMapping.Entry entry = mapping.entries().get(0);
        int repeat = values.mapping(entry.value(), "how a script is run", "{ repeat: 5 }")
                .map(options -> Fields.of(options, "a planned script", List.of("repeat"), Set.of(), findings))
                .flatMap(fields -> fields.required("repeat", "5"))
                .flatMap(node -> values.line(node, "a number of repeats"))
                .map(part -> WholeNumber.read(part, 1, MOST_REPEATS, "a number of repeats", findings))
                .orElse(1);
        return script(new Part(entry.at(), entry.key()), repeat);
    }

    private Optional<TestPlan.PlannedScript> script(Part name, int repeat) {
        Path file;
        try {
            file = folder.resolve(name.text()).normalize();
        } catch (InvalidPathException e) {
            findings.error(
                    name.at(),
                    Shown.quoted(name.text()) + " is no file name",
                    "write that of a file in the plan's folder");
            return Optional.empty();
        }
        if (Files.isDirectory(file)) {
            findings.error(
                    name.at(),
                    Shown.quoted(name.text()) + " is a folder, where a script is wanted",
                    "name each script of it that is to run");
            return Optional.empty();
        }
        if (!Files.isRegularFile(file)) {
            findings.error(name.at(), "there is no script " + Shown.quoted(name.text()), UserFile.siblings(file));
            return Optional.empty();
        }
        Position first = seen.putIfAbsent(file, name.at());
        if (first != null) {
            findings.warning(
                    name.at(),
                    name.text() + " is in the plan already, in line " + first.line(),
                    "\"" + name.text() + ": { repeat: 2 }\" runs it twice");
        }
        return Optional.of(new TestPlan.PlannedScript(findings.place(name.at()), file, repeat));
    }
}
