package snagbench.bench.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import snagbench.bench.explain.Explanation;
import snagbench.bench.explain.PlanExplanation;
import snagbench.bench.explain.RegisterExplanation;
import snagbench.bench.report.register.DecisionTableMaker;
import snagbench.bench.report.register.DecisionText;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.read.FileKind;

/** Tells what a script, a plan or a register means; needs no rig. */
@Command(
        name = "explain",
        mixinStandardHelpOptions = true,
        description = {
            "Tells what a fault script means, in plain sentences and a picture over time; of a test plan, what is run and",
            "what for; of a fail-safe register, what each fail-safe looks for and does, which symptoms",
            "two claim, and which none answers."
        },
        footer = {"", "Example: snagbench explain test-plans/seedling-shuttle/reach-blocked-midway.fault.yaml"})
final class ExplainCommand implements Callable<Integer> {
    private final Surroundings surroundings;

    @Parameters(
            paramLabel = "FILE",
            description = {
                "*.fault.yaml, *.plan.yaml or failsafes.yaml. Of a script that varies something, its first variant."
            })
    private String file = "";

    @Mixin
    private SharedOptions shared = new SharedOptions();

    ExplainCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws UserError {
        Path path = surroundings.path(file);
        RigChoice.requireFile(path, surroundings);
        Workload workload = new Workload(surroundings);
        Optional<FileKind> kind = workload.kind(path);
        Optional<List<String>> words = kind.isEmpty() ? Optional.empty() : words(kind.get(), path, workload);
        workload.problems()
                .forEach(problem -> ProblemText.lines(problem, surroundings).forEach(surroundings.err()::println));
        words.ifPresent(lines -> lines.forEach(surroundings.out()::println));
        return words.isEmpty() ? ExitStatus.FILES : ExitStatus.PASS;
    }

    private Optional<List<String>> words(FileKind kind, Path path, Workload workload) throws UserError {
        return switch (kind) {
            case FAULT_SCRIPT -> workload.scripts(path, shared.rig()).map(ExplainCommand::script);
            case TEST_PLAN ->
                workload.explained(path, shared.rig())
                        .map(found -> PlanExplanation.lines(found.plan(), found.items(), found.rig()));
            case REGISTER -> workload.register(path, shared.rig()).map(ExplainCommand::register);
            case RIG, SNAPSHOT ->
                throw new UserError(
                        ExitStatus.FILES,
                        surroundings.show(path) + " is " + kind.words()
                                + "; what can be explained is a fault script, a test plan or a fail-safe register");
        };
    }

    /** Each fail-safe, then which symptoms two claim and which none answers, where the rig tells of steps. */
    private static List<String> register(Workload.Register found) {
        List<String> lines = new ArrayList<>(RegisterExplanation.lines(found.content()));
        found.rig().description().step().ifPresent(step -> {
            lines.add("");
            lines.addAll(DecisionText.lines(DecisionTableMaker.of(found.content(), step)));
        });
        return lines;
    }

    private static List<String> script(Workload.Scripts found) {
        List<FaultScript> scripts = found.scripts();
        List<String> lines = new ArrayList<>(
                Explanation.withPicture(scripts.get(0), found.rig().description()));
        if (scripts.size() > 1) {
            lines.add("");
            lines.add("The file stands for " + scripts.size() + " scripts; this was the first.");
        }
        return lines;
    }
}
