package snagbench.bench.cli;

import picocli.CommandLine.Option;

/** Options that say how much of the results is told on the screen; all of it is in the report, whatever they say. */
final class Talk {
    @Option(
            names = {"-q", "--quiet"},
            description = "Shows only what did not pass, and the sum.")
    private boolean quiet;

    @Option(
            names = {"-v", "--verbose"},
            description = "Shows each expectation with its margin.")
    private boolean verbose;

    Talk() {}

    /** Refuses both at once. */
    void check() throws UserError {
        if (quiet && verbose) {
            throw new UserError(ExitStatus.FILES, "--quiet or --verbose, not both");
        }
    }

    boolean quiet() {
        return quiet;
    }

    boolean verbose() {
        return verbose;
    }
}
