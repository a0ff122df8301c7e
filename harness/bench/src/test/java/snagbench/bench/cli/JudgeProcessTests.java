package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.run.Control;
import snagbench.bench.run.ControlCheck;
import snagbench.bench.run.ControlVerdicts;
import snagbench.bench.run.Journal;
import snagbench.bench.run.Role;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.RigDescription;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.TraceFile;

/**
 * A stored trace is judged again by the real command line, with its script as it was and as it was changed: in one test by a
 * process as the user starts it, in the others, quicker, within this one.
 */
class JudgeProcessTests {
    private static final String SCRIPT = Bench.PLANS + "reach-blocked-midway.fault.yaml";

    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    private Path traceOf(String plan, int index) throws Exception {
        Told ran = Told.in(empty, "run", Bench.PLANS + plan);
        assertTrue(ran.status() <= 1, ran::all);
        RunRecord run = RunRecord.read(bench.run().resolve(Journal.FILE_NAME));
        return bench.run().resolve(run.results().get(index).trace().orElseThrow());
    }

    private Told judge(Path trace, String... more) {
        return Told.in(
                empty,
                Stream.concat(Stream.of("judge", empty.relativize(trace).toString()), Stream.of(more))
                        .toArray(String[]::new));
    }

    @ParameterizedTest
    @CsvSource({"first-light.plan.yaml, 0", "first-light-broken.plan.yaml, 1"})
    void judgedAgainWithTheSameScriptItShowsTheSameWithTheSameStatus(String plan, int status) throws Exception {
        Told ran = Told.in(empty, "run", Bench.PLANS + plan);
        Path trace = bench.run().resolve("traces/0001-reach-blocked-midway.trace");

        Told judged = judge(trace, SCRIPT);

        assertEquals(status, judged.status(), judged::all);
        assertEquals("", judged.err());
        List<String> again = judged.out().lines().toList();
        assertTrue(
                again.get(0).contains("of \"reach blocked midway\" on seedling-shuttle (run, build 1.0"), again.get(0));
        List<String> before = ran.out().lines().toList();
        assertEquals(before.get(2), again.get(2), "the row");
        for (String line : again.subList(3, again.size())) {
            assertTrue(line.startsWith("fail: ") || before.contains(line), () -> "\"" + line + "\" in " + ran.out());
        }
        assertEquals(status == 0, again.size() == 3, judged::all);
    }

    @Test
    void aChangedExpectationIsJudgedOnTheOldTrace() throws Exception {
        Path trace = traceOf("first-light.plan.yaml", 0);
        bench.spoil(SCRIPT, "within: 80 ms .. 250 ms", "within: 80 ms .. 85 ms");

        Told judged = judge(trace, SCRIPT);

        assertEquals(1, judged.status(), judged::all);
        assertTrue(judged.out().contains("expected : FS-02 answers 80 ms to 85 ms after the injection"), judged::all);
        assertTrue(judged.out().contains(" late)"), judged::all);
    }

    @Test
    void aRigWithoutAVirtualOneIsEnough() throws Exception {
        Path trace = traceOf("first-light.plan.yaml", 0);
        Told before = judge(trace, SCRIPT);
        bench.spoil("fixtures/seedling-shuttle/rig.yaml", "\nvirtual: seedling-shuttle ", "\nport: /dev/no-such-port ");

        Told judged = judge(trace, SCRIPT);

        assertEquals(0, judged.status(), judged::all);
        assertEquals(before.out(), judged.out());
    }

    @Test
    void aChangedInjectionCannotBeFoundInIt() throws Exception {
        Path trace = traceOf("first-light.plan.yaml", 0);
        bench.spoil(SCRIPT, "reach.position: at least 180 mm", "reach.position: at least 190 mm");

        Told judged = judge(trace, SCRIPT);

        assertEquals(3, judged.status(), judged::all);
        assertTrue(judged.out().contains("loaded with other injections"), judged::all);
        assertFalse(judged.out().contains("\npass"), judged::all);
    }

    /** No-fault, inhibited and twin runs, also of a file that varies something: each comes to what it came to in the run. */
    @Test
    void theTraceOfAControlRunSaysSoAndIsJudgedAsThat() throws Exception {
        bench.write(Bench.PLANS + "controlled.plan.yaml", """
                test-plan: controlled
                rig: seedling-shuttle
                run-time: 30 s
                reserve: 5 s
                control-runs: { no-fault: true, inhibited: true }
                scripts:
                  - reach-blocked-midway.fault.yaml
                  - reach-blocked-anywhere.fault.yaml
                  - obstacle-and-then-a-jam.fault.yaml
                  - current-spike-too-short.fault.yaml
                  - supply-cut.fault.yaml
                  - proves-nothing.fault.yaml
                """);
        bench.write(
                Bench.PLANS + "proves-nothing.fault.yaml",
                bench.read(Bench.PLANS + "current-spike-too-short.fault.yaml").replace("80 ms }", "32 ms }"));
        Told ran = Told.in(empty, "run", Bench.PLANS + "controlled.plan.yaml");
        assertEquals(3, ran.status(), ran::all);
        RunRecord run = RunRecord.read(bench.run().resolve(Journal.FILE_NAME));

        Set<String> seen = new TreeSet<>();
        for (ScriptResult was : run.controls()) {
            Control control = was.control().orElseThrow();
            ControlCheck check = ControlVerdicts.check(was);
            seen.add(control.role() + " " + check.state());
            Path trace = bench.run().resolve(was.trace().orElseThrow());

            Told judged = judge(trace, was.place().file().toString());

            assertEquals(check.takesThePass() ? 3 : 0, judged.status(), judged::all);
            assertEquals("", judged.err());
            List<String> lines = judged.out().lines().toList();
            assertTrue(lines.get(2).startsWith(was.judgement().verdict().word() + " "), judged::all);
            String kind = control.role().words() + (control.change().isEmpty() ? "" : " (" + control.change() + ")");
            assertEquals(
                    "this is the trace of a control run of the script, its " + kind + ", and is judged as that",
                    lines.get(3));
            assertEquals(check.state().word() + ": " + check.sentence(), lines.get(4));
            assertFalse(judged.out().contains("other injections"), judged::all);
        }
        assertEquals(Set.of("NO_FAULT HOLDS", "INHIBITED HOLDS", "TWIN HOLDS", "TWIN FALLS_SHORT"), seen);
    }

    @Test
    void aControlRunOfAnInjectionThatHasChangedSinceIsNone() throws Exception {
        Told ran = Told.in(empty, "run", SCRIPT, "--control-runs");
        assertEquals(0, ran.status(), ran::all);
        ScriptResult inhibited = RunRecord.read(bench.run().resolve(Journal.FILE_NAME)).controls().stream()
                .filter(one -> one.role() == Role.INHIBITED)
                .findFirst()
                .orElseThrow();
        bench.spoil(SCRIPT, "reach.position: at least 180 mm", "reach.position: at least 190 mm");

        Told judged = judge(bench.run().resolve(inhibited.trace().orElseThrow()), SCRIPT);

        assertEquals(3, judged.status(), judged::all);
        assertTrue(judged.out().contains("loaded with other injections"), judged::all);
        assertFalse(judged.out().contains("control run"), judged::all);
    }

    @Test
    void whatTheTraceLacksMakesItInconclusiveAndIsNamed() throws Exception {
        Path trace = traceOf("first-light.plan.yaml", 0);
        without(trace, "battery.voltage");

        Told judged = judge(trace, SCRIPT);

        assertEquals(3, judged.status(), judged::all);
        assertTrue(judged.out().contains("\n  the trace has no battery.voltage\n"), judged::all);
        assertTrue(judged.out().contains("but was  : not judged: the trace has no battery.voltage"), judged::all);
        assertEquals(
                1,
                judged.out()
                        .lines()
                        .filter(line -> line.startsWith("  inconclusive: "))
                        .count(),
                judged::all);
    }

    /** As of a rig that had no such channel: those behind it have other numbers. */
    private static void without(Path file, String channel) throws IOException {
        StoredTrace stored = TraceFile.read(file);
        RigDescription rig = stored.trace().rig();
        List<ChannelDescription> left = rig.channels().stream()
                .filter(one -> !one.name().equals(channel))
                .toList();
        List<ChannelDescription> renumbered = IntStream.range(0, left.size())
                .mapToObj(index -> new ChannelDescription(
                        index,
                        left.get(index).name(),
                        left.get(index).kind(),
                        left.get(index).unit(),
                        left.get(index).stepMultiplier(),
                        left.get(index).stepExponent(),
                        left.get(index).lowest(),
                        left.get(index).highest(),
                        left.get(index).absent(),
                        left.get(index).flags(),
                        left.get(index).valueNames()))
                .toList();
        RigDescription other = new RigDescription(1, renumbered, rig.failSafes(), rig.limits());
        TraceFile.write(stored.header(), stored.trace().under(other), file);
    }

    @Test
    void aTraceThatWasCutShortSaysSo() throws Exception {
        Path trace = traceOf("first-light.plan.yaml", 0);
        byte[] bytes = Files.readAllBytes(trace);
        Files.write(trace, Arrays.copyOf(bytes, bytes.length / 2));

        Told judged = judge(trace, SCRIPT, "--rig", "seedling-shuttle");

        assertEquals(3, judged.status(), judged::all);
        assertTrue(judged.out().contains("the trace was not written to its end: the run was cut short"), judged::all);
    }

    @Test
    void whatIsNoTraceIsAClearError() throws Exception {
        BenchProcess.Ended judged = BenchProcess.run(empty, "judge", SCRIPT, SCRIPT);

        assertEquals(2, judged.status(), judged::all);
        assertEquals("", judged.out());
        assertEquals(
                "snagbench: " + SCRIPT + ": not a trace file, or one that was cut off in its first piece\n",
                judged.err());
    }
}
