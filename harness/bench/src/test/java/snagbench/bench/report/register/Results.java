package snagbench.bench.report.register;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.Place;

/** Results of runs that nobody made, and sheets that go with them. */
final class Results {
    private Results() {}

    static ScriptResult result(String file, Verdict verdict, long recoveryMicros, String... failSafes) {
        Judgement judgement = new Judgement(
                verdict,
                List.of(),
                OptionalLong.of(100_000),
                OptionalLong.of(recoveryMicros),
                OptionalLong.empty(),
                List.of(),
                List.of());
        return new ScriptResult(
                0,
                "script " + file,
                new Place(Path.of("plans", file), 1, 1),
                1,
                1,
                7,
                List.of(failSafes),
                ScriptResult.Evidence.TOLD,
                judgement,
                1_000_000,
                new ScriptResult.LoopTimes(5100, 5200),
                0,
                Optional.empty(),
                Optional.empty());
    }

    static RegisterSheet.FailSafe failSafe(String name, String... scripts) {
        return new RegisterSheet.FailSafe(
                name, "a fail-safe", "III", List.of(scripts), Optional.empty(), "", Optional.empty());
    }

    static RegisterSheet.FailSafe costing(String name, long leastMillis, long mostMillis, String words) {
        return new RegisterSheet.FailSafe(
                name,
                "a fail-safe",
                "III",
                List.of(),
                Optional.of(new RegisterSheet.Cost(leastMillis * 1000, mostMillis * 1000)),
                words,
                Optional.empty());
    }

    static RegisterSheet.FailSafe costingWords(String name, String words) {
        return new RegisterSheet.FailSafe(
                name, "a fail-safe", "III", List.of(), Optional.empty(), words, Optional.empty());
    }

    static RegisterSheet sheet(long reserveMillis, RegisterSheet.FailSafe... failSafes) {
        return new RegisterSheet(
                "a plan", Optional.empty(), reserveMillis * 1000, List.of(failSafes), List.of(), List.of(), List.of());
    }

    static RegisterSheet.Measured measured(String failSafe, long millis) {
        return new RegisterSheet.Measured(failSafe, "a script", 1, millis * 1000, "OUT", "nominal runs");
    }
}
