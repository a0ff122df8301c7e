package snagbench.bench.report.sheet;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.ValueMargin;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.Family;
import snagbench.bench.report.Sentences;
import snagbench.bench.report.register.Asked;
import snagbench.bench.run.RunHeader;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;

/**
 * How a fail-safe stands on one build at some time: the newest results of each script file that is about it. A newer run of one
 * script says nothing of another, so what failed there before still stands.
 */
final class Standing {
    private final String failSafe;
    private final Map<String, OfFile> newest;

    private Standing(String failSafe, Map<String, OfFile> newest) {
        this.failSafe = failSafe;
        this.newest = newest;
    }

    private record OfFile(RunHeader run, List<ScriptResult> results) {}

    /** Before the first run. */
    static Standing beforeAll(String failSafe) {
        return new Standing(failSafe, Map.of());
    }

    /** What of a run is about a fail-safe; what was left out is not. */
    static List<ScriptResult> of(RunRecord run, String failSafe) {
        return run.results().stream()
                .filter(result -> result.failSafes().contains(failSafe))
                .filter(result -> result.judgement().verdict() != Verdict.NONE)
                .toList();
    }

    /** Behind a later run on the same build. */
    Standing then(RunRecord run) {
        Map<String, OfFile> files = new TreeMap<>(newest);
        of(run, failSafe).stream()
                .collect(Collectors.groupingBy(Standing::file))
                .forEach((file, results) -> files.put(file, new OfFile(run.header(), results)));
        return new Standing(failSafe, files);
    }

    private static String file(ScriptResult result) {
        return String.valueOf(result.place().file().getFileName());
    }

    Verdict worst() {
        return results().map(one -> one.judgement().verdict()).reduce(Verdict.NONE, Verdict::worse);
    }

    /** All of it passed, and the fail-safe had to answer at least once. */
    boolean isProof() {
        return worst() == Verdict.PASS && results().anyMatch(this::asks);
    }

    Set<String> files() {
        return newest.keySet();
    }

    private Stream<ScriptResult> results() {
        return newest.values().stream().flatMap(one -> one.results().stream());
    }

    private boolean asks(ScriptResult result) {
        return Asked.toAnswer(result, failSafe);
    }

    /** The worst, of these the newest; for a pass that is no proof, why it is none. */
    String trouble() {
        OfFile of = newest.values().stream()
                .max(Comparator.comparing((OfFile one) -> worst(one).judgement().verdict())
                        .thenComparing(one -> one.run().started()))
                .orElseThrow();
        ScriptResult result = worst(of);
        Verdict verdict = result.judgement().verdict();
        return verdict.word() + " on build " + of.run().build() + ", "
                + Readiness.day(of.run().started()) + ", " + Sentences.title(result) + ": "
                + (verdict == Verdict.PASS
                        ? "it only had to keep quiet, as it would if it were not there"
                        : Sentences.cause(result.judgement()));
    }

    private static ScriptResult worst(OfFile of) {
        // The first of the worst.
        return of.results().stream()
                .reduce((one, next) ->
                        next.judgement().verdict().compareTo(one.judgement().verdict()) > 0 ? next : one)
                .orElseThrow();
    }

    /** As a proof. */
    Readiness.Proof proof() {
        List<ScriptResult> results = results().toList();
        boolean told = results.stream().anyMatch(one -> one.evidence() != ScriptResult.Evidence.PHYSICAL);
        boolean physical = results.stream().anyMatch(one -> one.evidence() != ScriptResult.Evidence.TOLD);
        return new Readiness.Proof(
                began(newest.values().stream()
                                .filter(one -> one.results().stream().anyMatch(this::asks)))
                        .max(Comparator.naturalOrder())
                        .orElseThrow(),
                began(newest.values().stream()).min(Comparator.naturalOrder()).orElseThrow(),
                newest.values().iterator().next().run().build(),
                newest.values().stream().allMatch(one -> one.run().real()),
                told && physical
                        ? ScriptResult.Evidence.TOLD_AND_PHYSICAL
                        : physical ? ScriptResult.Evidence.PHYSICAL : ScriptResult.Evidence.TOLD,
                newest.size(),
                results.size(),
                results.stream()
                        .map(Family::marginOf)
                        .filter(OptionalLong::isPresent)
                        .mapToLong(OptionalLong::getAsLong)
                        .min(),
                leastValues(results));
    }

    private static Stream<Instant> began(Stream<OfFile> files) {
        return files.map(one -> one.run().started());
    }

    private static List<String> leastValues(List<ScriptResult> results) {
        List<ValueMargin> all = results.stream()
                .flatMap(one -> one.judgement().findings().stream())
                .map(Finding::marginValue)
                .flatMap(Optional::stream)
                .toList();
        return all.stream()
                .map(ValueMargin::channel)
                .distinct()
                .sorted()
                .map(channel -> channel + " "
                        + all.stream()
                                .filter(one -> one.channel().equals(channel))
                                .min(Comparator.comparing(ValueMargin::figure))
                                .orElseThrow()
                                .show())
                .toList();
    }
}
