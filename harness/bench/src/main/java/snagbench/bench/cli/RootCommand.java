package snagbench.bench.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The command line without a command. */
@Command(
        name = "snagbench",
        mixinStandardHelpOptions = true,
        versionProvider = Version.class,
        description = "Proves the fail-safes of a machine on a bench: fault scripts in, verdicts out.",
        footer = {
            "",
            "Exit status: 0 all pass, 1 a fail, 2 files or usage (nothing ran), 3 inconclusive or not run,",
            "4 rig or line, 130 after Ctrl-C, 70 a fault of our own.",
            "Example: snagbench run test-plans/seedling-shuttle/first-light.plan.yaml"
        })
final class RootCommand implements Callable<Integer> {
    @Spec
    private @org.jspecify.annotations.Nullable CommandSpec spec;

    @Override
    public Integer call() {
        if (spec == null) {
            throw new IllegalStateException("not run by its command line");
        }
        throw new ParameterException(spec.commandLine(), "what to do? A command is missing");
    }
}
