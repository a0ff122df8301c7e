package snagbench.bench.report.sheet;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import snagbench.bench.judge.Fact;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.InjectionFacts;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.run.RunEnd;
import snagbench.bench.run.RunHeader;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Place;
import snagbench.bench.script.RigDescription;
import snagbench.bench.trace.RenamedTraces;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceHeader;
import snagbench.wire.EntryEnd;

/** Runs made by hand in which every text that somebody else could have written is the same one. */
public final class SheetRuns {
    /** Texts that break pages which trust them. */
    public static final List<String> HOSTILE = List.of(
            "<script>document.title='struck'</script>",
            "</style></script></svg></title><img src=x onerror=document.title='struck'>",
            "\" onload=\"document.title='struck'\" x='",
            "' onfocus='x' autofocus='",
            "<!-- --><![CDATA[ ]]>&lt;&#60;&amp;",
            "javascript:document.title='struck'",
            "https://example.invalid/track.png",
            "W".repeat(3000),
            "a very long name with many words ".repeat(60).strip(),
            "\u05d0\u05d1\u05d2 right to left \u0645\u0631\u062d\u0628\u0627",
            "turned \u202Egnp.exe\u2066 and back \u200F",
            "\uD83C\uDF31 seedling \uD83D\uDC68\u200D\uD83C\uDF3E \uD83C\uDFF3\uFE0F\u200D\uD83C\uDF08",
            "half \uD83C a letter \uDF31",
            "bell \u0007 null \u0000 escape \u001b[31m delete \u007f next \u0085 no letter \uFFFE",
            "line\nand\rline\tand tab",
            "=1+2",
            "| a | b |",
            "**bold** _it_ `code` [x](y) @everyone #1",
            "$end $var wire 1 ! x $end",
            " ",
            "");

    private SheetRuns() {}

    /** A run of as many scripts as there are verdicts, one with a trace and one that varies something. */
    public static RunRecord run(String text) {
        List<ScriptResult> results = new ArrayList<>();
        for (Verdict verdict : Verdict.values()) {
            results.add(result(results.size(), text, verdict, Optional.empty()));
        }
        for (int i = 1; i <= 3; i++) {
            results.add(result(
                    results.size(),
                    text,
                    i == 2 ? Verdict.FAIL : Verdict.PASS,
                    Optional.of(new ScriptResult.Variation(text + i, i, 3))));
        }
        List<String> planned = new ArrayList<>();
        for (int i = 0; i < results.size() + 2; i++) {
            planned.add(text);
        }
        RunHeader header = new RunHeader(
                Instant.parse("2026-03-01T22:15:00Z"), text, text, text, text, text, text, false, text, 7, planned);
        return new RunRecord(header, results, Optional.of(new RunEnd(RunEnd.Cause.RIG, text)));
    }

    /** As many scripts that passed as wanted. */
    public static RunRecord many(int count) {
        List<ScriptResult> results = new ArrayList<>();
        List<String> planned = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            results.add(result(i, "script " + i, Verdict.PASS, Optional.empty()));
            planned.add("script " + i);
        }
        return new RunRecord(
                new RunHeader(
                        Instant.parse("2026-03-01T22:15:00Z"),
                        "0.1",
                        "17",
                        "many",
                        "p",
                        "r",
                        "b",
                        false,
                        "0",
                        7,
                        planned),
                results,
                Optional.of(new RunEnd(RunEnd.Cause.COMPLETE, "")));
    }

    private static ScriptResult result(
            int index, String text, Verdict verdict, Optional<ScriptResult.Variation> variation) {
        // Not every system takes every letter in the name of a file.
        Place place = new Place(Path.of(text.replaceAll("[^ -~]", "_")), 1, 1);
        boolean passed = verdict == Verdict.PASS;
        Finding finding = new Finding(
                text,
                place,
                verdict,
                List.of(new Fact("expected", text), new Fact("but was", text)),
                OptionalLong.of(60),
                OptionalLong.of(300_000),
                OptionalLong.of(passed ? 50_000 : -50_000));
        Judgement judgement = new Judgement(
                verdict,
                List.of(finding),
                OptionalLong.of(100_000),
                OptionalLong.of(150_000),
                OptionalLong.of(passed ? 50_000 : -50_000),
                List.of(new InjectionFacts(
                        text,
                        OptionalLong.of(40),
                        OptionalLong.of(200_000),
                        OptionalLong.of(79),
                        OptionalLong.of(200_000),
                        Optional.of(EntryEnd.UNTIL),
                        true,
                        1)),
                List.of(text));
        return new ScriptResult(
                index,
                text,
                place,
                1,
                2,
                7,
                List.of(text),
                ScriptResult.Evidence.TOLD_AND_PHYSICAL,
                judgement,
                1_000_000,
                new ScriptResult.LoopTimes(5000, 5200),
                3,
                Optional.of(text),
                variation);
    }

    /** The rig of {@link SyntheticTrace} with other names. */
    public static RigDescription rig(String text) {
        RigDescription rig = SyntheticTrace.rig();
        return new RigDescription(
                rig.digest(),
                rig.channels().stream().map(one -> renamed(one, text)).toList(),
                List.of(
                        new FailSafeDescription(1, text + "1", OptionalInt.empty()),
                        new FailSafeDescription(2, text + "2", OptionalInt.empty())),
                rig.limits());
    }

    private static ChannelDescription renamed(ChannelDescription one, String text) {
        return new ChannelDescription(
                one.index(),
                text + one.index(),
                one.kind(),
                one.isStep() ? "" : text,
                one.stepMultiplier(),
                one.stepExponent(),
                one.lowest(),
                one.highest(),
                one.absent(),
                one.flags(),
                one.valueNames().stream().map(name -> text + name).toList());
    }

    /** With an override from tick 40 to 79, a step, an answer and a gap. */
    public static SyntheticTrace synthetic() {
        return new SyntheticTrace(200)
                .real(SyntheticTrace.POSITION, tick -> 100 + tick * 10)
                .told(SyntheticTrace.POSITION, tick -> 500)
                .real(SyntheticTrace.CURRENT, tick -> tick == 61 ? 2900 : 80 + tick % 7)
                .on(40, 0)
                .step(60, "DRAWING_BACK")
                .answered(60, 2)
                .off(80, 0, EntryEnd.UNTIL)
                .loseTicks(100, 110);
    }

    /** Wiring, traces and scripts in the same words. */
    public static Sources sources(String text) {
        RigDescription rig = rig(text);
        Trace trace = RenamedTraces.of(synthetic().trace(), rig);
        StoredTrace stored = new StoredTrace(new TraceHeader(TraceHeader.Origin.RUN, text, 7, 0, text), trace, true, 0);
        FaultScript script = new FaultScript(
                new Place(Path.of("x"), 1, 1),
                text,
                rig.failSafes(),
                text,
                Set.of(),
                List.of(),
                List.of(),
                List.of(),
                Optional.empty());
        return new Sources(
                result -> Optional.of(stored),
                result -> Optional.of(script),
                Map.of(text + "1", text, text + "2", text),
                Optional.of(register(text)));
    }

    /** A register and a plan in the same words: three fail-safes, of which one costs no time and one has no script. */
    public static RegisterSheet register(String text) {
        RegisterSheet.Words words = new RegisterSheet.Words(
                text, text, text, text, text, List.of(text, text), List.of(new RegisterSheet.Sensor(text + "1", text)));
        // Not every system takes every letter in the name of a file.
        String file = text.replaceAll("[^ -~]", "_").replace("/", "_") + ".fault.yaml";
        return new RegisterSheet(
                text,
                Optional.of(text),
                5_000_000,
                List.of(
                        new RegisterSheet.FailSafe(
                                text,
                                text,
                                "II",
                                List.of(file),
                                Optional.of(new RegisterSheet.Cost(1_000_000, 3_000_000)),
                                text,
                                Optional.of(words)),
                        new RegisterSheet.FailSafe(
                                text + "2",
                                text,
                                "I",
                                List.of(),
                                Optional.of(new RegisterSheet.Cost(100_000, 200_000)),
                                "",
                                Optional.of(words)),
                        new RegisterSheet.FailSafe(
                                text + "3", text, "IV", List.of(file), Optional.empty(), text, Optional.empty())),
                List.of(
                        new RegisterSheet.Script(file, text, List.of(text)),
                        new RegisterSheet.Script(text, text, List.of())),
                List.of(
                        new RegisterSheet.Combination(
                                text, text + "1", List.of(text), List.of("freeze"), List.of("drift")),
                        new RegisterSheet.Combination(text, text + "2", List.of(text), List.of(), List.of("drift"))));
    }
}
