package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import snagbench.bench.run.ScriptResult;

/** Matrix, reserve and warnings as plain lines. */
public final class RegisterText {
    private static final int MOST_NAMED = 40;
    private static final double MICROS_PER_SECOND = 1e6;

    private RegisterText() {}

    /**
     * The matrix and what it lacks.
     *
     * @param sheet what register and plan said
     * @param matrix register and results side by side
     * @return lines
     */
    public static List<String> matrix(RegisterSheet sheet, Traceability matrix) {
        List<String> lines = new ArrayList<>();
        lines.add("Fail-safes and the scripts that prove them:");
        for (RegisterSheet.FailSafe failSafe : sheet.failSafes()) {
            lines.add(failSafe.name() + " " + failSafe.title() + " (severity " + failSafe.severity() + ")");
            matrix.rows().stream()
                    .filter(row -> row.failSafe().equals(failSafe.name()))
                    .forEach(row -> lines.add(row(row)));
            if (matrix.withoutScript().contains(failSafe.name())) {
                lines.add("  no script");
            }
        }
        list(lines, "Fail-safes without a script", matrix.withoutScript());
        list(lines, "Fail-safes of which nothing was run", matrix.withoutResult());
        list(lines, "Scripts without a fail-safe", matrix.withoutFailSafe());
        list(lines, "Register and scripts do not agree", matrix.notInRegister());
        lines.add("Steps and channels that symptoms look at, and kinds of fault tried there: " + matrix.tried() + " of "
                + matrix.possible() + ". Never tried:");
        matrix.combinations().stream()
                .filter(one -> !one.never().isEmpty())
                .map(one -> "  " + one.step() + ", " + one.channel() + " (" + String.join(" ", one.failSafes()) + "): "
                        + (one.tried().isEmpty() ? "none tried at all" : String.join(", ", one.never())))
                .forEach(lines::add);
        return lines;
    }

    private static String row(Traceability.Row row) {
        String times = row.runs() > 1 ? ", worst of " + row.runs() : "";
        return String.format(
                Locale.ROOT,
                "  %-13s %-17s %s",
                row.runs() == 0 ? "not run" : row.verdict().word(),
                evidence(row.evidence()),
                row.script() + times + (row.onlyQuiet() ? ", it only had to keep quiet" : ""));
    }

    private static String evidence(Optional<ScriptResult.Evidence> evidence) {
        return evidence.map(one -> one.name().toLowerCase(Locale.ROOT).replace('_', ' '))
                .orElse("");
    }

    private static void list(List<String> lines, String title, List<String> items) {
        if (!items.isEmpty()) {
            lines.add(title + ":");
            items.forEach(item -> lines.add("  " + item));
        }
    }

    /**
     * What the register is warned of behind a run.
     *
     * @param matrix register and results side by side
     * @param how how to see the whole, such as "report results/x --matrix"
     * @return one line; none where nothing is amiss
     */
    public static Optional<String> warning(Traceability matrix, String how) {
        List<String> parts = new ArrayList<>();
        count(parts, matrix.withoutScript().size(), "fail-safe without a script", "fail-safes without a script");
        count(
                parts,
                matrix.withoutResult().size() - matrix.withoutScript().size(),
                "fail-safe of which no script was run",
                "fail-safes of which no script was run");
        count(parts, matrix.withoutFailSafe().size(), "script without a fail-safe", "scripts without a fail-safe");
        count(
                parts,
                matrix.notInRegister().size(),
                "script about which the register and it do not agree",
                "scripts about which the register and they do not agree");
        int never = matrix.possible() - matrix.tried();
        if (never > 0) {
            parts.add(never + " of " + matrix.possible() + " combinations of step, channel and fault never tried");
        }
        return parts.isEmpty()
                ? Optional.empty()
                : Optional.of("warning: " + String.join("; ", parts) + " (\"" + how + "\" lists them)");
    }

    private static void count(List<String> parts, int count, String one, String more) {
        if (count > 0) {
            parts.add(count + " " + (count == 1 ? one : more));
        }
    }

    /**
     * What fits in the reserve.
     *
     * @param reserve worked out
     * @return lines
     */
    public static List<String> reserve(Reserve reserve) {
        List<String> lines = new ArrayList<>();
        lines.add("Time reserve " + seconds(reserve.reserveMicros()) + ". What a recovery takes of it at most:");
        for (Reserve.Cost cost : reserve.costs()) {
            lines.add("  " + cost.failSafe() + ": " + seconds(cost.micros()) + " (" + basis(cost) + ")"
                    + (cost.except().isEmpty() ? "" : "; or " + cost.except()));
        }
        reserve.notTimes().forEach(one -> lines.add("  " + one + " (not in the table)"));
        for (int recoveries = 1; recoveries <= 3; recoveries++) {
            lines.add(List.of("One recovery", "Two recoveries", "Three recoveries")
                            .get(recoveries - 1) + ": " + reserve.fitting(recoveries) + " of "
                    + reserve.of(recoveries).size() + " fit"
                    + (recoveries < 3 ? fitting(reserve.of(recoveries)) : ""));
        }
        List<Reserve.Combination> tooMuch = reserve.leastTooMuch();
        if (!tooMuch.isEmpty()) {
            lines.add("What does not fit, though one recovery less would:");
            tooMuch.stream()
                    .limit(MOST_NAMED)
                    .forEach(one -> lines.add("  " + one.words() + ": " + seconds(one.micros()) + ", does not fit"));
            if (tooMuch.size() > MOST_NAMED) {
                lines.add("  and " + (tooMuch.size() - MOST_NAMED) + " more, in results.json");
            }
        }
        return lines;
    }

    private static String fitting(List<Reserve.Combination> combinations) {
        String all = combinations.stream()
                .filter(Reserve.Combination::fits)
                .map(one -> one.words() + " " + seconds(one.micros()))
                .collect(Collectors.joining(", "));
        return all.isEmpty() ? "" : ": " + all;
    }

    private static String basis(Reserve.Cost cost) {
        return switch (cost.basis()) {
            case MEASURED ->
                "measured in " + cost.runs() + (cost.runs() == 1 ? " run" : " runs")
                        + " against " + cost.against() + ", " + range(cost.leastMicros(), cost.micros())
                        + cost.register()
                                .map(told -> "; the register says " + range(told.leastMicros(), told.mostMicros()))
                                .orElse("");
            case REGISTER -> "as the register says, against nominal runs; not measured here";
            case RECOVERY_SEEN ->
                "longest recovery seen here, from the fault on; not against a nominal run, so that it may cost more";
        };
    }

    private static String range(long least, long most) {
        return String.format(Locale.ROOT, "%.2f s .. %.2f s", least / MICROS_PER_SECOND, most / MICROS_PER_SECOND);
    }

    static String seconds(long micros) {
        return String.format(Locale.ROOT, "%.1f s", micros / MICROS_PER_SECOND);
    }
}
