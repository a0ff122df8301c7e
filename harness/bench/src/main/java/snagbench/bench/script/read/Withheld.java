package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.IntFunction;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.Place;
import snagbench.bench.script.Problem;
import snagbench.bench.script.yaml.Shown;

/** The problems of one file that are counted and not told, since so many are told already. */
final class Withheld {
    private final Set<Long> errors = new HashSet<>();
    private final Set<Long> warnings = new HashSet<>();
    private @Nullable Place first;

    /** Counts one; the same one at the same place, which another part of the reader has found too, only once. */
    void add(Place place, Problem.Severity severity, String message) {
        if (first == null) {
            first = place;
        }
        long spot = ((long) place.line() << 32) + place.column();
        (severity == Problem.Severity.ERROR ? errors : warnings).add(31 * spot + message.hashCode());
    }

    /** Counts those of another reading of the same file. */
    void addAll(Withheld others) {
        if (first == null) {
            first = others.first;
        }
        errors.addAll(others.errors);
        warnings.addAll(others.warnings);
    }

    /** One problem that stands for all of them, at the place of the first; the file's lines go by their numbers. */
    Optional<Problem> summary(IntFunction<String> lines) {
        if (first == null) {
            return Optional.empty();
        }
        List<String> parts = new ArrayList<>();
        if (!errors.isEmpty()) {
            parts.add(counted(errors.size(), "error"));
        }
        if (!warnings.isEmpty()) {
            parts.add(counted(warnings.size(), "warning"));
        }
        return Optional.of(new Problem(
                first,
                errors.isEmpty() ? Problem.Severity.WARNING : Problem.Severity.ERROR,
                "and " + String.join(" and ", parts) + " in this file, which are not told one by one",
                "mend the first ones; a file with so many may be of another kind than its name says",
                Shown.clean(lines.apply(first.line()))));
    }

    private static String counted(int count, String what) {
        return String.format(Locale.ROOT, "%,d more %s%s", count, what, count == 1 ? "" : "s");
    }
}
