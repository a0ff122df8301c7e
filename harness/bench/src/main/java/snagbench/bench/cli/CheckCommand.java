package snagbench.bench.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import snagbench.bench.script.Problem;

/** Checks files; needs no rig. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = "Checks test plans with their scripts, or fault scripts, against the rig's stored description.",
        footer = {"", "Example: snagbench check test-plans/seedling-shuttle/*.fault.yaml"})
final class CheckCommand implements Callable<Integer> {
    private final Surroundings surroundings;

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "*.plan.yaml and *.fault.yaml, in any number.")
    private List<String> files = List.of();

    @Mixin
    private SharedOptions shared = new SharedOptions();

    CheckCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws UserError {
        Workload workload = new Workload(surroundings);
        for (String given : files) {
            Path file = surroundings.path(given);
            if (Workload.isPlan(file)) {
                workload.plan(file, given, shared.rig(), 0);
            } else {
                workload.scripts(List.of(file), given, shared.rig(), 0);
            }
        }
        List<Problem> problems = workload.problems();
        for (Problem problem : problems) {
            ProblemText.lines(problem, surroundings).forEach(surroundings.out()::println);
        }
        long errors = problems.stream()
                .filter(problem -> problem.severity() == Problem.Severity.ERROR)
                .count();
        long warnings = problems.size() - errors;
        surroundings
                .out()
                .println(errors
                        + (errors == 1 ? " error, " : " errors, ")
                        + warnings
                        + (warnings == 1 ? " warning" : " warnings"));
        return errors > 0 ? ExitStatus.FILES : ExitStatus.PASS;
    }
}
