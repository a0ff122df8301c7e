package snagbench.bench.evidence;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;

/** Why repeats may not be independent of each other, or may all be one and the same run. */
final class Independence {
    /** Two runs that are alike may be so by chance, where times are whole ticks. */
    private static final int FEW = 3;

    private Independence() {}

    static List<String> warnings(
            List<Attempt> run, Circumstances circumstances, Optional<Trend> passes, Optional<Trend> recovery) {
        if (run.size() < 2) {
            return List.of();
        }
        List<String> warnings = new ArrayList<>();
        nothingVaried(run, circumstances).ifPresent(warnings::add);
        passes.filter(Trend::isSuspicious)
                .ifPresent(trend -> warnings.add("the result hangs on the order: what did not pass stands rather "
                        + (trend.towardsTheEnd() ? "at the end" : "at the beginning") + " (" + chance(trend)
                        + "), so the repeats are not independent"));
        recovery.filter(Trend::isSuspicious)
                .ifPresent(trend -> warnings.add("recovery takes "
                        + (trend.towardsTheEnd() ? "longer" : "less long") + " in the later repeats (" + chance(trend)
                        + "), so they are not independent"
                        + (circumstances.real() ? ": motors getting warm, or a battery getting empty?" : "")));
        if (circumstances.real() && circumstances.restMicros() == 0) {
            warnings.add(
                    "a real rig ran again with no rest: motors get warm and the battery gets empty from one run to the"
                            + " next, so the repeats may not be independent; \"between: { rest: 20 s }\" lets it rest");
        }
        return List.copyOf(warnings);
    }

    private static Optional<String> nothingVaried(List<Attempt> run, Circumstances circumstances) {
        boolean oneSetting = run.stream().map(Attempt::setting).distinct().count() == 1;
        boolean oneSeed = run.stream().map(Attempt::seed).distinct().count() == 1;
        if (oneSetting && circumstances.real()) {
            return Optional.of(
                    "nothing was varied: seeds vary virtual rigs only; let the script vary the moment of its fault"
                            + " (\"vary\"), or the repeats show that moment alone");
        }
        if (oneSetting && oneSeed) {
            return Optional.of("nothing was varied: all repeats had the same seed, so they are one run, seen "
                    + run.size() + " times");
        }
        boolean alike = run.size() >= FEW
                && run.stream().map(Attempt::verdict).distinct().count() == 1
                && Stream.of(
                                run.stream().map(Attempt::detectionMicros).toList(),
                                run.stream().map(Attempt::recoveryMicros).toList(),
                                run.stream().map(Attempt::marginMicros).toList())
                        .allMatch(TimeSummary::areAlike);
        boolean anyTime = run.stream().map(Attempt::marginMicros).anyMatch(OptionalLong::isPresent);
        return alike && anyTime
                ? Optional.of("all " + run.size() + " repeats went alike to the microsecond: what was varied made no"
                        + " difference to this script, so they may be one run, seen " + run.size() + " times")
                : Optional.empty();
    }

    private static String chance(Trend trend) {
        return trend.chance() < 0.001
                ? "by chance less than 1 in 1000"
                : String.format(Locale.ROOT, "by chance 1 in %.0f", 1 / trend.chance());
    }
}
