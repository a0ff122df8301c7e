package snagbench.bench.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import snagbench.bench.evidence.RepeatPlan;
import snagbench.bench.explain.PlanExplanation;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.report.register.SheetMaker;
import snagbench.bench.run.AdequacyPlan;
import snagbench.bench.run.ChecksWanted;
import snagbench.bench.run.ClaimedScript;
import snagbench.bench.run.PlannedRun;
import snagbench.bench.run.RunPlan;
import snagbench.bench.script.Between;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Condition;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Problem;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.TestPlan;
import snagbench.bench.script.read.FileKind;
import snagbench.bench.script.read.PlanObjection;
import snagbench.bench.script.read.PlanReader;
import snagbench.bench.script.read.RegisterReader;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.script.read.Snapshots;
import snagbench.bench.script.read.StartConditionReader;

/**
 * What the user asks to run or check: a plan, or scripts. All files are read and all problems gathered before anything
 * moves.
 */
final class Workload {
    private static final long USUAL_RUN_MICROS = 30_000_000;

    /** The most runs of a whole plan: on a virtual rig hours, on a real one weeks. */
    private static final long MOST_RUNS = 100_000;

    private final RigChoice rigs;
    private final Asked asked;
    private final List<Problem> problems = new ArrayList<>();
    private final Map<Path, Optional<RigChoice.Rig>> rigsRead = new LinkedHashMap<>();
    private final Map<Path, List<FaultScript>> scriptsRead = new LinkedHashMap<>();
    private Optional<RegisterSheet> sheet = Optional.empty();

    /** Nothing but what plans ask for. */
    Workload(Surroundings surroundings) {
        this(surroundings, new Asked(false, false));
    }

    Workload(Surroundings surroundings, Asked asked) {
        this.rigs = new RigChoice(surroundings);
        this.asked = asked;
    }

    /** What the command line asks to be checked of the scripts, beyond what a plan asks for. */
    record Asked(boolean controls, boolean adequacy) {}

    List<Problem> problems() {
        return List.copyOf(problems);
    }

    boolean hasErrors() {
        return problems.stream().anyMatch(problem -> problem.severity() == Problem.Severity.ERROR);
    }

    /** What register and plan say; empty for scripts without a plan, and for a rig without a register. */
    Optional<RegisterSheet> sheet() {
        return sheet;
    }

    static boolean isPlan(Path file) {
        return FileKind.byName(file).filter(kind -> kind == FileKind.TEST_PLAN).isPresent();
    }

    /** What a file is; empty if that cannot be told, which then is among the problems. */
    Optional<FileKind> kind(Path file) {
        Checked<FileKind> kind = FileKind.of(file);
        problems.addAll(kind.problems());
        return kind.value();
    }

    /** A rig's file; all that is wrong with it is among the problems. */
    void rigFile(Path file) {
        rig(file);
    }

    /** A register, for its rig; all that is wrong with either is among the problems. */
    Optional<Register> register(Path file, Optional<String> rigGiven) throws UserError {
        Path rigFile = rigGiven.isPresent() ? rigs.find(rigGiven.get(), file) : rigs.beside(file);
        Optional<RigChoice.Rig> rig = rig(rigFile);
        if (rig.isEmpty()) {
            return Optional.empty();
        }
        if (isSame(file, RegisterReader.registerOf(rigFile))) {
            return rig.get().register().map(found -> new Register(rig.get(), found));
        }
        Checked<FailSafeRegister> read =
                RegisterReader.read(file, rig.get().description(), rig.get().content());
        problems.addAll(read.problems());
        return read.value().map(found -> new Register(rig.get(), found));
    }

    /** A register and its rig. */
    record Register(RigChoice.Rig rig, FailSafeRegister content) {}

    /** A rig's stored description. */
    void snapshot(Path file) {
        problems.addAll(Snapshots.read(file).problems());
    }

    private static boolean isSame(Path one, Path other) {
        return one.toAbsolutePath().normalize().equals(other.toAbsolutePath().normalize());
    }

    /** The checked scripts of a file, and the rig for which they were read; empty if there is an error. */
    Optional<Scripts> scripts(Path file, Optional<String> rigGiven) throws UserError {
        Path rigFile = rigGiven.isPresent() ? rigs.find(rigGiven.get(), file) : rigs.guess(file);
        return rig(rigFile)
                .map(found -> new Scripts(found, scripts(file, found)))
                .filter(found -> !found.scripts().isEmpty());
    }

    /** Scripts of one file, at least one. */
    record Scripts(RigChoice.Rig rig, List<FaultScript> scripts) {}

    /** How many files were read whole. */
    int filesRead() {
        return scriptsRead.size() + rigsRead.size();
    }

    /** A plan with its rig and scripts; empty if there is an error, which then is among the problems. */
    Optional<RunPlan> plan(Path file, String shown, Optional<String> rigGiven, int seed) throws UserError {
        Checked<TestPlan> read = PlanReader.read(file);
        problems.addAll(read.problems());
        if (read.value().isEmpty()) {
            return Optional.empty();
        }
        TestPlan plan = read.value().get();
        Optional<Path> rigFile = rigGiven.isPresent()
                ? Optional.of(rigs.find(rigGiven.get(), file))
                : rigs.findFor(plan.rig(), file, problems);
        Optional<RigChoice.Rig> rig = rigFile.flatMap(this::rig);
        if (rig.isEmpty()) {
            return Optional.empty();
        }
        List<PlannedRun> runs = new ArrayList<>();
        List<ClaimedScript> claims = new ArrayList<>();
        long sum = 0;
        for (TestPlan.PlannedScript planned : plan.scripts()) {
            List<FaultScript> ofFile = scripts(planned.file(), rig.get());
            RepeatPlan repeats = RepeatPlan.of(planned.repeat(), planned.claim(), Math.max(1, ofFile.size()));
            repeats.objection()
                    .filter(objection -> !ofFile.isEmpty())
                    .ifPresent(objection -> problems.add(
                            PlanObjection.at(file, planned.place(), objection.message(), objection.cure())));
            sum += (long) repeats.each() * ofFile.size();
            if (sum <= MOST_RUNS) {
                ofFile.forEach(script -> addRuns(runs, script, repeats.each(), seed));
            }
            ofFile.stream().limit(1).forEach(script -> planned.claim()
                    .ifPresent(claim -> claims.add(new ClaimedScript(script.place(), claim, repeats.total()))));
        }
        if (sum > MOST_RUNS) {
            problems.add(PlanObjection.at(
                    file,
                    plan.place(),
                    "the plan comes to " + sum + " runs, and one makes " + MOST_RUNS + " at most",
                    "write less for \"repeat\", or make several plans of it"));
        }
        Checked<Optional<Condition>> start =
                StartConditionReader.read(file, rig.get().description());
        problems.addAll(start.problems());
        RigFile content = rig.get().content();
        List<FaultScript> all = runs.stream().map(PlannedRun::script).toList();
        sheet = rig.get()
                .register()
                .map(register -> SheetMaker.of(plan.name(), plan.reserveMicros(), register, content, all));
        return hasErrors()
                ? Optional.empty()
                : Optional.of(new RunPlan(
                        plan.name(),
                        shown,
                        rig.get().content(),
                        rig.get().description(),
                        plan.build().orElse(""),
                        seed,
                        plan.runTimeMicros(),
                        runs,
                        plan.between().onlyIf(start.value().orElse(Optional.empty())),
                        claims,
                        checks(plan, rig.get())));
    }

    /** Scripts without a plan, each once. */
    Optional<RunPlan> scripts(List<Path> files, String shown, Optional<String> rigGiven, int seed) throws UserError {
        Path rigFile = rigGiven.isPresent() ? rigs.find(rigGiven.get(), files.get(0)) : rigs.guess(files.get(0));
        Optional<RigChoice.Rig> rig = rig(rigFile);
        if (rig.isEmpty()) {
            return Optional.empty();
        }
        List<PlannedRun> runs = new ArrayList<>();
        for (Path file : files) {
            scripts(file, rig.get()).forEach(script -> addRuns(runs, script, 1, seed));
        }
        if (hasErrors()) {
            return Optional.empty();
        }
        String name = files.size() == 1 ? runs.get(0).script().name() : files.size() + " scripts";
        RigFile content = rig.get().content();
        RigDescription description = rig.get().description();
        ChecksWanted checks = new ChecksWanted(
                asked.controls(),
                asked.controls(),
                asked.adequacy() ? Optional.of(adequacy(rig.get(), true, true)) : Optional.empty());
        return Optional.of(new RunPlan(
                name,
                shown,
                content,
                description,
                "",
                seed,
                USUAL_RUN_MICROS,
                runs,
                Between.nothing(),
                List.of(),
                checks));
    }

    /** What the plan asks for, and what the command line asks for on top. */
    private ChecksWanted checks(TestPlan plan, RigChoice.Rig rig) {
        boolean removals = plan.adequacy().failSafes() || asked.adequacy();
        boolean constants = plan.adequacy().constants() || asked.adequacy();
        return new ChecksWanted(
                plan.controls().noFault() || asked.controls(),
                plan.controls().inhibited() || asked.controls(),
                removals || constants ? Optional.of(adequacy(rig, removals, constants)) : Optional.empty());
    }

    /** Every fail-safe of the register, or of the rig where it has none; every constant that the rig's file lets be changed. */
    private static AdequacyPlan adequacy(RigChoice.Rig rig, boolean removals, boolean constants) {
        List<FailSafeRegister.Entry> entries =
                rig.register().map(FailSafeRegister::entries).orElse(List.of());
        List<FailSafeDescription> failSafes = rig.register().isPresent()
                ? entries.stream().map(FailSafeRegister.Entry::failSafe).toList()
                : rig.description().failSafes();
        List<AdequacyPlan.Change> changes = rig.content().adjustable().stream()
                .map(one -> new AdequacyPlan.Change(
                        one,
                        entries.stream()
                                .filter(entry -> entry.symptoms().constants().contains(one.channel()))
                                .map(entry -> entry.failSafe().name())
                                .collect(Collectors.toSet())))
                .toList();
        return new AdequacyPlan(removals ? failSafes : List.of(), constants ? changes : List.of());
    }

    /** A plan and what each of its scripts comes to, for who wants to read it and not to run it. */
    Optional<Plan> explained(Path file, Optional<String> rigGiven) throws UserError {
        Optional<RunPlan> runs = plan(file, file.toString(), rigGiven, 1);
        Optional<TestPlan> read = PlanReader.read(file).value();
        if (runs.isEmpty() || read.isEmpty()) {
            return Optional.empty();
        }
        List<PlanExplanation.Item> items = new ArrayList<>();
        for (TestPlan.PlannedScript planned : read.get().scripts()) {
            List<FaultScript> scripts = scriptsRead.getOrDefault(planned.file(), List.of());
            int repeats = runs.get().runs().stream()
                    .filter(run -> run.script().place().equals(scripts.get(0).place()))
                    .mapToInt(PlannedRun::repeats)
                    .findFirst()
                    .orElse(1);
            items.add(new PlanExplanation.Item(scripts, repeats));
        }
        TestPlan plan = read.get().with(runs.get().between());
        return Optional.of(new Plan(plan, items, runs.get().description()));
    }

    /** A plan without errors. */
    record Plan(TestPlan plan, List<PlanExplanation.Item> items, RigDescription rig) {}

    private Optional<RigChoice.Rig> rig(Path file) {
        return rigsRead.computeIfAbsent(file, path -> rigs.read(path, problems));
    }

    /** The scripts of a file: one, or one for each variant; none if there is an error. */
    private List<FaultScript> scripts(Path file, RigChoice.Rig rig) {
        return scriptsRead.computeIfAbsent(file, path -> {
            Checked<List<FaultScript>> read = ScriptReader.readAll(path, rig.description(), rig.content());
            problems.addAll(read.problems());
            return read.value().orElse(List.of());
        });
    }

    /** The first run has the plan's own seed, so that a script alone with that seed runs the same. */
    private static void addRuns(List<PlannedRun> runs, FaultScript script, int repeats, int seed) {
        for (int repeat = 1; repeat <= repeats; repeat++) {
            runs.add(new PlannedRun(script, repeat, repeats, seed + repeat - 1));
        }
    }
}
