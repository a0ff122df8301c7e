package snagbench.bench.script;

import java.util.List;
import java.util.Optional;

/**
 * What could be read of a file, and all problems with it.
 *
 * @param <T> what the file is about
 * @param value present when there is no error
 * @param problems all of them, errors and warnings, in the order of the file
 */
public record Checked<T>(Optional<T> value, List<Problem> problems) {
    /** Copies the list. */
    public Checked {
        problems = List.copyOf(problems);
    }

    /**
     * Tells whether nothing may run.
     *
     * @return true if one of the problems is an error
     */
    public boolean hasErrors() {
        return problems.stream().anyMatch(problem -> problem.severity() == Problem.Severity.ERROR);
    }
}
