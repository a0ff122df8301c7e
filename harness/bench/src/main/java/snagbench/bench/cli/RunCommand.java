package snagbench.bench.cli;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.IntSupplier;
import java.util.stream.IntStream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snagbench.bench.report.Family;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.report.register.RegisterText;
import snagbench.bench.report.register.Traceability;
import snagbench.bench.run.PlanRunner;
import snagbench.bench.run.RigConnector;
import snagbench.bench.run.RunFolder;
import snagbench.bench.run.RunPlan;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.RunTerms;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.read.FileKind;
import snagbench.bench.session.SessionException;

/** Runs a plan or scripts. */
@Command(
        name = "run",
        mixinStandardHelpOptions = true,
        description = {
            "Runs a test plan, or fault scripts, on a rig and judges each.",
            "All files are checked before anything moves. Ctrl-C makes the machine's safe stop first.",
            "A real rig is driven only with --motion. Scripts whose needs are not met are left out, with the reason."
        },
        footer = {
            "",
            "Example: snagbench run test-plans/seedling-shuttle/first-light.plan.yaml --seed 7",
            "Example: snagbench run my.plan.yaml --port /dev/ttyUSB0 --motion"
        })
final class RunCommand implements Callable<Integer> {
    private final Surroundings surroundings;

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "One *.plan.yaml, or one or more *.fault.yaml.")
    private List<String> files = List.of();

    @Mixin
    private SharedOptions shared = new SharedOptions();

    @Mixin
    private LineOptions line = new LineOptions();

    @Mixin
    private Grants grants = new Grants();

    @Mixin
    private Talk talk = new Talk();

    @Option(
            names = "--seed",
            paramLabel = "N",
            defaultValue = "1",
            description =
                    "Seed of noise and of a virtual rig's variation; same seed, same run. Usually ${DEFAULT-VALUE}.")
    private int seed;

    @Option(
            names = "--out",
            paramLabel = "DIR",
            defaultValue = "results",
            description = "Takes a new folder for the run. Usually ${DEFAULT-VALUE}.")
    private String out = "results";

    @Option(
            names = "--to-the-end",
            description = "Runs a script that has failed for certain to its end; else it ends 2 s after it has.")
    private boolean toTheEnd;

    @Option(
            names = "--control-runs",
            description = {
                "Scripts that pass are run without their fault too, and with each fail-safe left out that they name;",
                "a pass that these do not bear out is inconclusive."
            })
    private boolean controlRuns;

    @Option(
            names = "--inhibited-on-real",
            description = {
                "Control runs on a real rig leave fail-safes out too, and scripts that do so by \"inhibit\" are run: the",
                "machine then meets the fault with nothing but its guards and its power switch against it. Never with a",
                "physical disturbance, with hands, or without a guard."
            })
    private boolean inhibitedOnReal;

    @Option(
            names = "--adequacy",
            description = {
                "Leaves out each fail-safe of the register in turn, and changes each adjustable constant of the",
                "control code, and tells which of that the scripts did not notice. On virtual rigs only."
            })
    private boolean adequacy;

    private Optional<RegisterSheet> sheet = Optional.empty();
    private Optional<RigConnector> inProcess = Optional.empty();

    RunCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws Exception {
        talk.check();
        Workload workload = new Workload(surroundings, new Workload.Asked(controlRuns, adequacy));
        Optional<RunPlan> plan = read(workload);
        for (var problem : workload.problems()) {
            ProblemText.lines(problem, surroundings).forEach(surroundings.err()::println);
        }
        if (plan.isEmpty()) {
            surroundings.err().println("Nothing was run.");
            return ExitStatus.FILES;
        }
        sheet = workload.sheet();
        return run(plan.get());
    }

    private Optional<RunPlan> read(Workload workload) throws UserError {
        List<Path> paths = files.stream().map(surroundings::path).toList();
        String shown = String.join(" ", files);
        boolean anyPlan = false;
        for (Path path : paths) {
            RigChoice.requireFile(path, surroundings);
            Optional<FileKind> kind = workload.kind(path);
            if (kind.isEmpty()) {
                return Optional.empty();
            }
            if (kind.get() != FileKind.TEST_PLAN && kind.get() != FileKind.FAULT_SCRIPT) {
                throw new UserError(
                        ExitStatus.FILES,
                        surroundings.show(path) + " is " + kind.get().words()
                                + "; what can be run is a test plan, or fault scripts");
            }
            anyPlan |= kind.get() == FileKind.TEST_PLAN;
        }
        if (anyPlan && paths.size() > 1) {
            throw new UserError(ExitStatus.FILES, "one plan at a time, or scripts without a plan; found " + shown);
        }
        return anyPlan
                ? workload.plan(paths.get(0), shown, shared.rig(), seed)
                : workload.scripts(paths, shown, shared.rig(), seed);
    }

    private int run(RunPlan plan) throws UserError, IOException {
        String remains = "What was finished is in the journal; \"report\" shows it.";
        try (RigWay way = RigWay.choose(surroundings, line, plan.rig(), build(plan), remains)) {
            RunTerms terms = way.isOverPort()
                    ? new RunTerms(grants.needs(), greetedBuild(plan), grants.releaseLatch(), toTheEnd, inhibitedOnReal)
                    : new RunTerms(grants.needs(), Optional.empty(), false, toTheEnd, inhibitedOnReal);
            inProcess = way.isOverPort() ? Optional.empty() : Optional.of(way.connector());
            return run(plan, way, terms);
        }
    }

    /** The build that a plan names, if there is such a one; on a port it need not be a virtual rig's. */
    private Optional<String> build(RunPlan plan) throws UserError {
        if (plan.build().isEmpty()) {
            return Optional.empty();
        }
        if (plan.rig().virtual().isPresent()) {
            try {
                VirtualRigs.build(VirtualRigs.of(plan.rig()), Optional.of(plan.build()));
            } catch (UserError e) {
                throw new UserError(e.status(), plan.file() + ": " + e.getMessage() + "\nNothing was run.");
            }
        }
        return Optional.of(plan.build());
    }

    /** A plan may name a virtual rig's build, which that rig's greeting tells by another name. */
    private static Optional<String> greetedBuild(RunPlan plan) throws UserError {
        if (plan.build().isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                plan.rig().virtual().isPresent()
                        ? VirtualRigs.greetedBuild(VirtualRigs.of(plan.rig()), plan.build())
                        : plan.build());
    }

    private int run(RunPlan plan, RigWay way, RunTerms terms) throws UserError, IOException {
        RunFolder folder;
        try {
            folder = RunFolder.create(surroundings.path(out), LocalDateTime.now(surroundings.clock()), plan.name());
        } catch (IOException e) {
            throw new UserError(ExitStatus.FILES, "no folder for the results: " + reason(e));
        }
        String title = plan.name() + " on " + plan.rig().name() + " (" + way.words() + "), seed " + plan.seed();
        Results results = new Results(surroundings, talk);
        ProgressLine progress =
                new ProgressLine(surroundings, results, title, plan.runs().size());
        RunRecord run;
        try {
            if (way.isOverPort()) {
                progress.connecting(way.words());
            }
            IntSupplier nonces = way.isOverPort() ? surroundings.nonces() : inOrder();
            PlanRunner runner =
                    new PlanRunner(plan, terms, way.connector(), folder, progress, surroundings.cancelled(), nonces);
            run = runner.run(Instant.now(surroundings.clock()), Version.text());
        } catch (SessionException e) {
            progress.erase();
            folder.discardIfEmpty();
            throw new UserError(ExitStatus.RIG, e.getMessage() + "\nNothing was run.");
        } catch (IOException e) {
            progress.finish();
            throw new UserError(
                    ExitStatus.RIG,
                    "journal and traces cannot be written: " + reason(e)
                            + "; what was finished before is there, and \"report " + surroundings.show(folder.path())
                            + "\" shows it");
        }
        progress.finish();
        return show(run.concluded(), results, plan, folder);
    }

    /** In process a session's name need only differ from the one before, and is the same for the same run. */
    private static IntSupplier inOrder() {
        var iterator = IntStream.iterate(1, next -> next + 1).iterator();
        return iterator::nextInt;
    }

    private int show(RunRecord run, Results results, RunPlan plan, RunFolder folder) throws UserError {
        results.details(Family.of(run.results()));
        results.summary(run);
        RunPages pages = new RunPages(surroundings, folder.path(), results);
        try {
            if (sheet.isPresent()) {
                measure(run, plan, folder, pages);
                sheet.get().write(folder.path());
                String how = "report " + surroundings.show(folder.path()) + " --matrix";
                RegisterText.warning(Traceability.of(sheet.get(), run.results()), how)
                        .ifPresent(results::note);
            }
            pages.write(run, plan);
        } catch (IOException e) {
            throw new UserError(
                    ExitStatus.RIG,
                    "the results cannot be written: " + reason(e)
                            + "; the journal is whole, make them again with \"report\"");
        }
        return ExitStatus.of(run);
    }

    /** Nothing moves for it: a rig in this process runs once more without a fault for each seed. */
    private void measure(RunRecord run, RunPlan plan, RunFolder folder, RunPages pages) throws IOException {
        Optional<ChannelDescription> step = plan.description().step();
        if (inProcess.isEmpty() || step.isEmpty()) {
            return;
        }
        NominalRuns nominal = new NominalRuns(surroundings, folder.path(), pages);
        try {
            nominal.record(plan, run, inProcess.get());
            sheet = sheet.map(one -> one.with(nominal.costs(run, step.get())));
        } catch (SessionException e) {
            surroundings
                    .err()
                    .println("warning: no nominal run, so that the reserve goes by the register's word: "
                            + e.getMessage());
        }
    }

    static String reason(IOException e) {
        if (e instanceof FileAlreadyExistsException) {
            return e.getMessage() + " is there already, and is no folder";
        }
        if (e instanceof NoSuchFileException) {
            return e.getMessage() + " cannot be made: the system has no such place";
        }
        if (e instanceof AccessDeniedException) {
            return e.getMessage() + " may not be written by this user";
        }
        return e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    }
}
