package snagbench.bench.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import snagbench.bench.explain.Explanation;
import snagbench.bench.script.FaultScript;

/** Tells what a script means; needs no rig. */
@Command(
        name = "explain",
        mixinStandardHelpOptions = true,
        description = "Tells what a fault script means, in plain sentences and a picture over time.",
        footer = {"", "Example: snagbench explain test-plans/seedling-shuttle/reach-blocked-midway.fault.yaml"})
final class ExplainCommand implements Callable<Integer> {
    private final Surroundings surroundings;

    @Parameters(paramLabel = "FILE", description = "*.fault.yaml. Of a file that varies something, its first script.")
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
}
