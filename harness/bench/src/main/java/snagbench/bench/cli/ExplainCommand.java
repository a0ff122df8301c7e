package snagbench.bench.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import snagbench.bench.explain.Explanation;
import snagbench.bench.report.register.DecisionText;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Problem;
import snagbench.bench.script.read.RegisterReader;
import snagbench.bench.script.read.RigFiles;

/** Tells what a script means; needs no rig. */
@Command(
        name = "explain",
        mixinStandardHelpOptions = true,
        description = {
            "Tells what a fault script means, in plain sentences and a picture over time.",
            "Of a rig's failsafes.yaml, which symptoms two fail-safes claim, and which none answers."
        },
        footer = {"", "Example: snagbench explain test-plans/seedling-shuttle/reach-blocked-midway.fault.yaml"})
final class ExplainCommand implements Callable<Integer> {
    private final Surroundings surroundings;

    @Parameters(
            paramLabel = "FILE",
            description = "*.fault.yaml, of a file that varies something its first script; or failsafes.yaml.")
    private String file = "";

    @Mixin
    private SharedOptions shared = new SharedOptions();

    ExplainCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws UserError {
        Path path = surroundings.path(file);
        Workload workload = new Workload(surroundings);
        if (path.endsWith(RegisterReader.FILE_NAME)) {
            return register(path);
        }
        Optional<Workload.Scripts> found = workload.scripts(path, shared.rig());
        workload.problems()
                .forEach(problem -> ProblemText.lines(problem, surroundings).forEach(surroundings.err()::println));
        if (found.isEmpty()) {
            return ExitStatus.FILES;
        }
        List<FaultScript> scripts = found.get().scripts();
        Explanation.withPicture(scripts.get(0), found.get().rig().description()).forEach(surroundings.out()::println);
        if (scripts.size() > 1) {
            surroundings.out().println();
            surroundings.out().println("The file stands for " + scripts.size() + " scripts; this was the first.");
        }
        return ExitStatus.PASS;
    }

    private int register(Path path) throws UserError {
        List<Problem> problems = new ArrayList<>();
        Path rigFile = path.resolveSibling(RigFiles.FILE_NAME);
        if (!Files.isRegularFile(path) || !Files.isRegularFile(rigFile)) {
            throw new UserError(
                    ExitStatus.FILES,
                    "there is no file "
                            + surroundings.show(Files.isRegularFile(path) ? rigFile : path)
                            + "; a register lies beside its rig's file");
        }
        Optional<RigChoice.Rig> rig = new RigChoice(surroundings).read(rigFile, problems);
        problems.forEach(problem -> ProblemText.lines(problem, surroundings).forEach(surroundings.err()::println));
        if (rig.isEmpty() || problems.stream().anyMatch(one -> one.severity() == Problem.Severity.ERROR)) {
            return ExitStatus.FILES;
        }
        DecisionText.lines(DecisionCheck.table(rig.get())).forEach(surroundings.out()::println);
        return ExitStatus.PASS;
    }
}
