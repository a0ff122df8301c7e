package snagbench.bench.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snagbench.bench.script.Problem;

/** Checks files; needs no rig. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description =
                "Checks test plans with their scripts, fault scripts, or a rig's file, against the rig's stored description.",
        footer = {"", "Example: snagbench check test-plans/seedling-shuttle/*.fault.yaml"})
final class CheckCommand implements Callable<Integer> {
    private final Surroundings surroundings;

    @Parameters(
            paramLabel = "FILE",
            arity = "1..*",
            description = "*.plan.yaml, *.fault.yaml and rig.yaml, in any number.")
    private List<String> files = List.of();

    @Option(names = "--json", description = "Prints the problems as JSON, for editors.")
    private boolean json;

    @Mixin
    private SharedOptions shared = new SharedOptions();

    CheckCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws UserError {
        Workload workload = new Workload(surroundings);
        List<String> notFound = new ArrayList<>();
        for (String given : files) {
            try {
                read(workload, given);
            } catch (UserError e) {
                // The other files are looked at all the same.
                notFound.add(String.valueOf(e.getMessage()));
            }
        }
        List<Problem> problems = workload.problems();
        long errors = problems.stream()
                        .filter(problem -> problem.severity() == Problem.Severity.ERROR)
                        .count()
                + notFound.size();
        long warnings = problems.size() + notFound.size() - errors;
        notFound.forEach(message -> surroundings.err().println("snagbench: " + message));
        if (json) {
            surroundings.out().println(ProblemsJson.text(problems, surroundings));
        } else {
            for (Problem problem : problems) {
                ProblemText.lines(problem, surroundings).forEach(surroundings.out()::println);
            }
            surroundings
                    .out()
                    .println(errors
                            + (errors == 1 ? " error, " : " errors, ")
                            + warnings
                            + (warnings == 1 ? " warning" : " warnings"));
        }
        return errors > 0 ? ExitStatus.FILES : ExitStatus.PASS;
    }

    private void read(Workload workload, String given) throws UserError {
        Path file = surroundings.path(given);
        if (Workload.isPlan(file)) {
            workload.plan(file, given, shared.rig(), 0);
        } else if (Workload.isRig(file)) {
            workload.rigFile(file);
        } else {
            workload.scripts(List.of(file), given, shared.rig(), 0);
        }
    }
}
