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
import snagbench.bench.report.register.AnswerCheck;
import snagbench.bench.report.register.DecisionSheet;
import snagbench.bench.report.register.DecisionTable;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.run.ClaimedScript;
import snagbench.bench.run.Control;
import snagbench.bench.run.Role;
import snagbench.bench.run.RunEnd;
import snagbench.bench.run.RunHeader;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Claim;
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

    /** Of {@link #run} only the script that failed and the one that varies something: every kind of thing once. */
    public static RunRecord few(String text) {
        RunRecord run = run(text);
        List<ScriptResult> some = new ArrayList<>(run.results().subList(3, 4));
        some.addAll(run.results().subList(5, run.results().size()));
        return new RunRecord(run.header(), some, run.end());
    }

    /**
     * One script several times on a real rig that never rested, of which 90 % at 90 % confidence is claimed; the last ones fail,
     * and recover later.
     */
    public static RunRecord repeated(String text, int runs, int fails) {
        List<ScriptResult> results = new ArrayList<>();
        List<String> planned = new ArrayList<>();
        for (int i = 0; i < runs; i++) {
            ScriptResult one = result(i, text, i < runs - fails ? Verdict.PASS : Verdict.FAIL, Optional.empty());
            results.add(new ScriptResult(
                    i,
                    text,
                    one.place(),
                    i + 1,
                    runs,
                    i,
                    one.failSafes(),
                    one.evidence(),
                    later(one.judgement(), i * 1000L),
                    one.rigMicros(),
                    one.loops(),
                    0,
                    Optional.empty(),
                    Optional.empty()));
            planned.add(text);
        }
        ClaimedScript claimed = new ClaimedScript(results.get(0).place(), new Claim(0.9, 0.9, 0), runs);
        RunHeader header = new RunHeader(
                Instant.parse("2026-03-01T22:15:00Z"),
                text,
                text,
                text,
                text,
                text,
                text,
                true,
                text,
                7,
                planned,
                0,
                List.of(claimed));
        return new RunRecord(header, results, Optional.of(new RunEnd(RunEnd.Cause.COMPLETE, "")));
    }

    /** One file that varies something: a result for each margin in microseconds, a fail where it is below zero. */
    public static RunRecord varied(long... margins) {
        List<ScriptResult> results = new ArrayList<>();
        for (int i = 0; i < margins.length; i++) {
            Verdict verdict = margins[i] < 0 ? Verdict.FAIL : Verdict.PASS;
            ScriptResult.Variation setting = new ScriptResult.Variation("setting " + (i + 1), i + 1, margins.length);
            ScriptResult one = once(result(i, "varied", verdict, Optional.of(setting)));
            Judgement judgement = one.judgement();
            results.add(new ScriptResult(
                    i,
                    one.script(),
                    one.place(),
                    1,
                    1,
                    7,
                    one.failSafes(),
                    one.evidence(),
                    new Judgement(
                            verdict,
                            judgement.findings(),
                            judgement.detectionMicros(),
                            judgement.recoveryMicros(),
                            OptionalLong.of(margins[i]),
                            judgement.injections(),
                            judgement.reasons()),
                    one.rigMicros(),
                    one.loops(),
                    0,
                    Optional.empty(),
                    one.variant()));
        }
        return new RunRecord(run("varied").header(), results, Optional.of(new RunEnd(RunEnd.Cause.COMPLETE, "")));
    }

    private static Judgement later(Judgement one, long micros) {
        return new Judgement(
                one.verdict(),
                one.findings(),
                OptionalLong.of(one.detectionMicros().orElseThrow() + micros),
                OptionalLong.of(one.recoveryMicros().orElseThrow() + micros),
                one.marginMicros(),
                one.injections(),
                one.reasons());
    }

    /** A script that passes, and passes without its fault too. */
    public static RunRecord withControls() {
        RunRecord run = run("plain");
        ScriptResult passed = run.results().get(1);
        ScriptResult one = run.results().get(3);
        ScriptResult control = new ScriptResult(
                90,
                passed.script(),
                passed.place(),
                1,
                1,
                7,
                passed.failSafes(),
                passed.evidence(),
                one.judgement(),
                1_000_000,
                passed.loops(),
                0,
                Optional.empty(),
                Optional.empty(),
                Optional.of(new Control(Role.NO_FAULT, passed.index(), "without its fault")));
        return new RunRecord(run.header(), List.of(passed), List.of(control), List.of(), run.end());
    }

    /** As {@link #sources}, of a controller that restarts and is heard again. */
    public static Sources restartedSources(String text) {
        Trace trace = synthetic().restartsAfter(170, 900_000).goesOn(20).trace();
        StoredTrace stored = new StoredTrace(new TraceHeader(TraceHeader.Origin.RUN, text, 7, 0, text), trace, true, 0);
        return new Sources(
                result -> Optional.of(stored),
                result -> Optional.empty(),
                Map.of(),
                Optional.empty(),
                Optional.empty());
    }

    /** A run in which each script, with all that is said of it, has another hostile text. */
    public static RunRecord medley() {
        List<ScriptResult> results = new ArrayList<>();
        for (String text : HOSTILE) {
            results.add(result(results.size(), text, Verdict.FAIL, Optional.empty()));
        }
        RunHeader header = run(HOSTILE.get(0)).header();
        return new RunRecord(header, results, Optional.of(new RunEnd(RunEnd.Cause.RIG, HOSTILE.get(1))));
    }

    /** For {@link #medley()}. */
    public static Sources medleySources() {
        List<Sources> each = HOSTILE.stream().map(SheetRuns::sources).toList();
        Sources first = each.get(0);
        return new Sources(
                result -> each.get(result.index()).traces().apply(result),
                result -> each.get(result.index()).scripts().apply(result),
                first.wiring(),
                Optional.of(medleyRegister()),
                Optional.of(medleyDecisions()));
    }

    private static DecisionSheet medleyDecisions() {
        List<DecisionTable.Overlap> overlaps = new ArrayList<>();
        List<DecisionTable.Hole> holes = new ArrayList<>();
        List<AnswerCheck.Counts> counts = new ArrayList<>();
        List<AnswerCheck.Finding> findings = new ArrayList<>();
        List<AnswerCheck.Together> together = new ArrayList<>();
        List<AnswerCheck.Met> met = new ArrayList<>();
        for (String text : HOSTILE) {
            DecisionSheet one = decisions(text);
            overlaps.addAll(one.table().overlaps());
            holes.addAll(one.table().holes());
            counts.addAll(one.check().failSafes());
            findings.addAll(one.check().findings());
            together.addAll(one.check().together());
            met.addAll(one.check().holes());
        }
        return new DecisionSheet(
                new DecisionTable(overlaps, holes, HOSTILE), new AnswerCheck(1, counts, findings, together, met));
    }

    /** A decision table in the same words: one overlap that is decided and one that is not, holes and findings of each kind. */
    public static DecisionSheet decisions(String text) {
        List<DecisionTable.Range> where = List.of(new DecisionTable.Range(text, 1, 5, text));
        DecisionTable.Region region = new DecisionTable.Region(List.of(text, text), where, where);
        List<DecisionTable.Hole> holes = new ArrayList<>();
        List<AnswerCheck.Met> met = new ArrayList<>();
        for (DecisionTable.Kind kind : DecisionTable.Kind.values()) {
            holes.add(new DecisionTable.Hole(kind, List.of(text, text + "2"), text + "3", List.of(region, region)));
            met.add(new AnswerCheck.Met(met.size(), 0, met.isEmpty() ? "" : text));
        }
        holes.add(new DecisionTable.Hole(DecisionTable.Kind.BESIDE, List.of(text), text + "4", List.of(region)));
        met.add(new AnswerCheck.Met(3, 400, text));
        List<AnswerCheck.Finding> findings = new ArrayList<>();
        for (AnswerCheck.Kind kind : AnswerCheck.Kind.values()) {
            Optional<String> other = kind == AnswerCheck.Kind.OUT_OF_ORDER ? Optional.of(text + "2") : Optional.empty();
            findings.add(new AnswerCheck.Finding(kind, text, other, text, 60, 300_000, where));
        }
        return new DecisionSheet(
                new DecisionTable(
                        List.of(
                                new DecisionTable.Overlap(
                                        List.of(text, text + "2"), Optional.of(text), List.of(region)),
                                new DecisionTable.Overlap(
                                        List.of(text, text + "3"), Optional.empty(), List.of(region, region))),
                        holes,
                        List.of(text)),
                new AnswerCheck(
                        7,
                        List.of(new AnswerCheck.Counts(text, 9, 5, 3, 8, 4, 2, 1)),
                        findings,
                        List.of(new AnswerCheck.Together(text, List.of(text + "2", text + "3"), 6)),
                        met));
    }

    private static RegisterSheet medleyRegister() {
        List<RegisterSheet.FailSafe> failSafes = new ArrayList<>();
        List<RegisterSheet.Combination> combinations = new ArrayList<>();
        for (String text : HOSTILE) {
            RegisterSheet one = register(text);
            failSafes.add(one.failSafes().get(0));
            combinations.addAll(one.combinations());
        }
        RegisterSheet first = register(HOSTILE.get(0));
        return new RegisterSheet(
                HOSTILE.get(0),
                Optional.of(HOSTILE.get(1)),
                5_000_000,
                failSafes,
                first.scripts(),
                combinations,
                List.of());
    }

    /** As many scripts that passed as wanted. */
    public static RunRecord many(int count) {
        List<ScriptResult> results = new ArrayList<>();
        List<String> planned = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            results.add(once(result(i, "script " + i, Verdict.PASS, Optional.empty())));
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

    private static ScriptResult once(ScriptResult one) {
        return new ScriptResult(
                one.index(),
                one.script(),
                one.place(),
                1,
                1,
                one.seed(),
                one.failSafes(),
                one.evidence(),
                one.judgement(),
                one.rigMicros(),
                one.loops(),
                one.gapTicks(),
                one.trace(),
                one.variant());
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
                Optional.of(register(text)),
                Optional.of(decisions(text)));
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
                        new RegisterSheet.Combination(text, text + "2", List.of(text), List.of(), List.of("drift"))),
                List.of());
    }

    /** A check sheet of such a run and register. */
    public static String checkSheet(String text) {
        return CheckSheet.html(
                Readiness.of(text, register(text), List.of(run(text)), Optional.of(text)),
                Instant.parse("2026-03-09T22:15:00Z"));
    }

    /** A check sheet of {@link #medley()}. */
    public static String medleyCheckSheet() {
        String rig = HOSTILE.get(0);
        return CheckSheet.html(
                Readiness.of(rig, medleyRegister(), List.of(medley()), Optional.of(HOSTILE.get(1))),
                Instant.parse("2026-03-09T22:15:00Z"));
    }

    /** A check sheet of a machine with usual names, of which one fail-safe failed. */
    public static String usualCheckSheet(int failSafes) {
        RegisterSheet.Words words = new RegisterSheet.Words(
                "cause",
                "effect",
                "symptoms",
                "response",
                "step READY within 3.0 s",
                List.of("reach slide", "reach motor", "encoder"),
                List.of(
                        new RegisterSheet.Sensor("reach.position", "J3, absolute encoder on the reach motor"),
                        new RegisterSheet.Sensor("reach.current", "A0, shunt in the reach motor's driver")));
        List<Readiness.Line> lines = new ArrayList<>();
        for (int i = 0; i < failSafes; i++) {
            RegisterSheet.FailSafe failSafe = new RegisterSheet.FailSafe(
                    "FS-" + i,
                    "arm stopped before the rack zone",
                    "II",
                    List.of("obstacle-in-the-way.fault.yaml"),
                    Optional.empty(),
                    "",
                    Optional.of(words));
            Readiness.Proof proof = new Readiness.Proof(
                    Instant.parse("2026-03-01T22:15:00Z"),
                    Instant.parse("2026-02-27T22:15:00Z"),
                    "1.4 practice",
                    true,
                    ScriptResult.Evidence.TOLD_AND_PHYSICAL,
                    5,
                    13,
                    OptionalLong.of(50_000),
                    List.of("battery.voltage +2.19 V", "reach.current +1.95 A"));
            String trouble = "fail on build 1.4 practice, 2026-03-02, reach blocked midway: sees it: FS-02 silent, step"
                    + " REACHING at +254.3 ms; reached: not by the end of the trace at +1401.4 ms";
            lines.add(new Readiness.Line(
                    failSafe,
                    i == 1 ? Readiness.State.FAILED : Readiness.State.PROVEN,
                    Optional.of(proof),
                    i == 1 ? trouble : "",
                    List.of("obstacle-and-then-a-jam.fault.yaml")));
        }
        return CheckSheet.html(
                new Readiness("seedling-shuttle", Optional.of("1.4 practice"), lines, 3),
                Instant.parse("2026-03-09T22:15:00Z"));
    }
}
