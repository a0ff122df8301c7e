package snagbench.bench.script.read;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import snagbench.bench.script.Between;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Claim;
import snagbench.bench.script.TestPlan;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/** Reads test plans. */
public final class PlanReader {
    static final String WHAT = "a test plan";
    static final String EXAMPLE = "test-plan: what it is for";
    private static final List<String> KEYS = List.of(
            "test-plan",
            "rig",
            "build",
            "run-time",
            "reserve",
            "claim",
            "between",
            "scripts",
            "control-runs",
            "adequacy");
    private static final List<String> BETWEEN_KEYS = List.of("rest", "start-only-if", "give-up-after");
    private static final int MOST_REPEATS = 10_000;

    private final Path folder;
    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Map<Path, TestPlan.PlannedScript> seen = new HashMap<>();

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
        UserFile opened = UserFile.open(file, WHAT, EXAMPLE);
        Findings findings = opened.findings();
        return findings.with(opened.root().flatMap(root -> new PlanReader(file, findings).plan(root)));
    }

    private Optional<TestPlan> plan(YamlMapping root) {
        Fields fields = Fields.of(root, WHAT, KEYS, Set.of(), findings);
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
        Optional<Claim> claim = fields.optional("claim").flatMap(new Claims(findings)::read);
        Between between = fields.optional("between").map(this::between).orElse(Between.nothing());
        List<TestPlan.PlannedScript> scripts = fields.required("scripts", "a list of files")
                .map(node -> scripts(node, claim))
                .orElse(List.of());
        Switches switches = new Switches(findings);
        return Optional.of(new TestPlan(
                findings.place(root.at()),
                name,
                rig,
                build,
                runTime,
                reserve,
                between,
                scripts,
                fields.optional("control-runs").map(switches::controls).orElse(new TestPlan.Controls(false, false)),
                fields.optional("adequacy").map(switches::adequacy).orElse(new TestPlan.AdequacyAsked(false, false))));
    }

    /** The condition in it is read when the rig is known; here only that there is one counts. */
    private Between between(YamlNode node) {
        String example = "{ rest: 20 s, start-only-if: { battery.voltage: at least 12.2 V } }";
        Optional<Fields> fields = values.mapping(node, "what holds between two runs", example)
                .map(mapping -> Fields.of(mapping, "\"between\"", BETWEEN_KEYS, Set.of(), findings));
        if (fields.isEmpty()) {
            return Between.nothing();
        }
        if (BETWEEN_KEYS.stream().noneMatch(fields.get()::has)) {
            findings.error(fields.get().at(), "\"between\" says nothing", "write it as: " + example);
        }
        long rest = fields.get()
                .optional("rest")
                .map(value -> times.harnessMicros(value, "a rest", false))
                .orElse(0L);
        fields.get()
                .optional("start-only-if")
                .ifPresent(value -> values.mapping(value, "a condition", "{ battery.voltage: at least 12.2 V }"));
        long giveUp = fields.get()
                .optional("give-up-after")
                .map(value -> times.harnessMicros(value, "a limit", true))
                .orElse(Between.USUAL_GIVE_UP_MICROS);
        if (fields.get().has("give-up-after") && !fields.get().has("start-only-if")) {
            findings.error(
                    fields.get().at("give-up-after"),
                    "\"give-up-after\" is how long \"start-only-if\" is waited for, and that is not there",
                    "add \"start-only-if: { battery.voltage: at least 12.2 V }\"");
        }
        return new Between(rest, Optional.empty(), giveUp);
    }

    private List<TestPlan.PlannedScript> scripts(YamlNode node, Optional<Claim> ofPlan) {
        List<TestPlan.PlannedScript> scripts = new ArrayList<>();
        for (YamlNode item :
                values.list(node, "a list of scripts", "- name.fault.yaml").orElse(List.of())) {
            if (item instanceof YamlMapping mapping) {
                repeated(mapping, ofPlan).ifPresent(scripts::add);
            } else {
                values.line(item, "a script's file name")
                        .flatMap(part -> script(part, OptionalInt.empty(), ofPlan))
                        .ifPresent(scripts::add);
            }
        }
        return scripts;
    }

    private Optional<TestPlan.PlannedScript> repeated(YamlMapping mapping, Optional<Claim> ofPlan) {
        String example = "name.fault.yaml: { repeat: 5 }";
        if (mapping.entries().size() != 1) {
            findings.error(mapping.at(), "one item of the list is one script", "write it as: - " + example);
            return Optional.empty();
        }
        YamlMapping.Entry entry = mapping.entries().get(0);
        Optional<Fields> fields = values.mapping(entry.value(), "how a script is run", "{ repeat: 5 }")
                .map(options -> Fields.of(options, "a planned script", List.of("repeat", "claim"), Set.of(), findings));
        if (fields.isPresent() && fields.get().lacks("repeat") && fields.get().lacks("claim")) {
            findings.error(
                    fields.get().at(),
                    "a planned script lacks \"repeat\" or \"claim\"",
                    "add \"repeat: 5\", or what it is to show: \"claim: { reliability: 90 %, confidence: 90 % }\"");
        }
        OptionalInt repeat = fields.flatMap(given -> given.optional("repeat"))
                .flatMap(node -> values.line(node, "a number of repeats"))
                .map(part -> WholeNumber.read(part, 1, MOST_REPEATS, "a number of repeats", findings))
                .map(OptionalInt::of)
                .orElse(OptionalInt.empty());
        Optional<Claim> own = fields.flatMap(given -> given.optional("claim")).flatMap(new Claims(findings)::read);
        return script(new Part(entry.at(), entry.key()), repeat, own.or(() -> ofPlan));
    }

    private Optional<TestPlan.PlannedScript> script(Part name, OptionalInt repeat, Optional<Claim> claim) {
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
        TestPlan.PlannedScript planned = new TestPlan.PlannedScript(findings.place(name.at()), file, repeat, claim);
        TestPlan.PlannedScript first = seen.putIfAbsent(file, planned);
        if (first != null) {
            reportTwice(name, first, planned);
        }
        return Optional.of(planned);
    }

    /** Runs of a claim are counted together, wherever they stand. */
    private void reportTwice(Part name, TestPlan.PlannedScript first, TestPlan.PlannedScript second) {
        String message = name.text() + " is in the plan already, in line "
                + first.place().line();
        if (first.claim().isPresent() || second.claim().isPresent()) {
            findings.error(
                    name.at(), message + ", and what is claimed of it is counted once", "take one of the two out");
        } else {
            findings.warning(name.at(), message, "\"" + name.text() + ": { repeat: 2 }\" runs it twice");
        }
    }
}
