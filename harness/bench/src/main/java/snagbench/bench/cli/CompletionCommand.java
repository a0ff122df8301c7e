package snagbench.bench.cli;

import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.AutoComplete;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** Prints what a shell needs to complete commands and options. */
@Command(
        name = "completion",
        mixinStandardHelpOptions = true,
        description = {
            "Prints a script by which bash or zsh complete commands, options and file names (the key Tab).",
            "For this shell: source <(harness/snagbench completion). For all: put that line into ~/.bashrc or"
                    + " ~/.zshrc, with the whole path of harness/snagbench."
        })
final class CompletionCommand implements Callable<Integer> {
    private final Surroundings surroundings;

    @Spec
    private @Nullable CommandSpec spec;

    CompletionCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() {
        if (spec == null) {
            throw new IllegalStateException("not run by its command line");
        }
        surroundings.out().println(AutoComplete.bash("snagbench", spec.root().commandLine()));
        surroundings.out().flush();
        return ExitStatus.PASS;
    }
}
