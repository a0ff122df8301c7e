package snagbench.bench.script.read;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Place;
import snagbench.bench.script.Problem;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlProblem;

/** Gathers the problems of one file while it is read. */
final class Findings {
    /** More would hide the first ones; a file with that many is mostly another kind of file. */
    private static final int MOST_PROBLEMS = 100;

    private final Path file;
    private final List<String> lines;
    private final Set<Problem> problems = new LinkedHashSet<>();
    private final Withheld withheld = new Withheld();
    private boolean hasErrors;

    Findings(Path file, List<String> lines) {
        this.file = file;
        this.lines = lines;
    }

    /** An empty one for the same file. */
    Findings anew() {
        return new Findings(file, lines);
    }

    List<Problem> all() {
        return List.copyOf(problems);
    }

    /** Counts what another reading of the same file has found and not told. */
    void withholdAllOf(Findings other) {
        withheld.addAll(other.withheld);
        hasErrors |= other.hasErrors;
    }

    Path file() {
        return file;
    }

    Place place(Position at) {
        Position inside = at.inside(lines);
        return new Place(file, inside.line(), inside.column());
    }

    void error(Position at, String message, String cure) {
        error(at, message, () -> cure);
    }

    /** The same; the cure, which may cost a search, is asked for only if it will be told. */
    void error(Position at, String message, Supplier<String> cure) {
        add(place(at), Problem.Severity.ERROR, message, cure);
    }

    void error(Place place, String message, String cure) {
        add(place, Problem.Severity.ERROR, message, () -> cure);
    }

    void warning(Position at, String message, String cure) {
        add(place(at), Problem.Severity.WARNING, message, () -> cure);
    }

    void warning(Place place, String message, String cure) {
        add(place, Problem.Severity.WARNING, message, () -> cure);
    }

    void takeAll(List<YamlProblem> found) {
        found.forEach(problem -> error(problem.at(), problem.message(), problem.cure()));
    }

    boolean hasErrors() {
        return hasErrors;
    }

    /** Whether so much is wrong that nothing more is told: what a message would cost can be saved. */
    boolean isFull() {
        return problems.size() >= MOST_PROBLEMS && hasErrors();
    }

    /** A line of the file, from 1; empty where there is none. */
    String line(int number) {
        return number >= 1 && number <= lines.size() ? lines.get(number - 1) : "";
    }

    /** The result: the value only if nothing is wrong with the file. */
    <T> Checked<T> with(Optional<T> value) {
        List<Problem> sorted = new ArrayList<>(problems);
        sorted.sort(Comparator.comparingInt((Problem problem) -> problem.place().line())
                .thenComparingInt(problem -> problem.place().column()));
        withheld.summary(this::line).ifPresent(sorted::add);
        return new Checked<>(hasErrors() ? Optional.empty() : value, sorted);
    }

    private void add(Place place, Problem.Severity severity, String message, Supplier<String> cure) {
        boolean firstError = severity == Problem.Severity.ERROR && !hasErrors;
        hasErrors |= severity == Problem.Severity.ERROR;
        if (problems.size() < MOST_PROBLEMS || firstError) {
            problems.add(new Problem(
                    place, severity, Shown.clean(message), Shown.clean(cure.get()), Shown.clean(line(place.line()))));
        } else {
            withheld.add(place, severity, message);
        }
    }
}
