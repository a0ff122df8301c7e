package snagbench.bench.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snagbench.bench.script.Problem;
import snagbench.bench.script.read.FileKind;

/** Checks files; needs no rig. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = {
            "Checks test plans with their scripts, fault scripts, a rig's file, its fail-safe register and its stored",
            "description; all but the last against that description. Needs no rig."
        },
        footer = {"", "Example: snagbench check test-plans/seedling-shuttle/*.fault.yaml"})
final class CheckCommand implements Callable<Integer> {
    private final Surroundings surroundings;

    @Parameters(
            paramLabel = "FILE",
            arity = "1..*",
            description = {
                "*.plan.yaml, *.fault.yaml, rig.yaml, failsafes.yaml and rig.snapshot.json, in any number;",
                "a file of another name is taken for what its keys say."
            })
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
            // As it is: it is read by programs, which take letters for what they are.
            surroundings.out().print(ProblemsJson.text(problems, surroundings));
            surroundings.out().println();
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
        RigChoice.requireFile(file, surroundings);
        Optional<FileKind> kind = workload.kind(file);
        if (kind.isEmpty()) {
            return;
        }
        switch (kind.get()) {
            case TEST_PLAN -> workload.plan(file, given, shared.rig(), 0);
            case RIG -> workload.rigFile(file);
            case REGISTER -> workload.register(file, shared.rig());
            case SNAPSHOT -> workload.snapshot(file);
            case FAULT_SCRIPT -> workload.scripts(List.of(file), given, shared.rig(), 0);
        }
    }
}
