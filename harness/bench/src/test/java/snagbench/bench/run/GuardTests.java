package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.judge.Judge;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.report.ResultText;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.SessionSettings;
import snagbench.bench.session.Shuttle;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.Record;

/** A frozen encoder makes control code that looks at nothing else drive the arm towards its end stop; a guard is there. */
class GuardTests {
    /** Where the arm would hit the end stop, in steps of 0.1 mm. */
    private static final int HARD_STOP = 4250;

    private static final int GUARDED = 4050;

    static FaultScript frozenEncoder() throws Exception {
        return Shuttle.script("frozen encoder", "FS-02", """
                inject:
                  - name: frozen
                    when: { step: REACHING, reach.position: at least 180 mm }
                    channels:
                      reach.position: freeze
                    lasts: 5 s
                expect:
                  - name: sees it
                    answered-by: FS-02
                    within: 80 ms .. 4 s
                """);
    }

    private static Trace run(VirtualLink link, FaultScript script, int seed, boolean guarded) throws SessionException {
        RigSession session =
                RigSession.open(link, SessionSettings.usual(7, 500, () -> false), Optional.of(Shuttle.description()));
        if (guarded) {
            session.loadGuards(Shuttle.file().guards());
        }
        session.makeReady(Shuttle.file().ready().orElseThrow(), false);
        TraceRecorder recorder = session.arm(script, seed);
        return new ScriptRun(session, script, 500_000, 30_000_000, micros -> {}, trace -> {}, Optional.empty())
                .listen(recorder);
    }

    private static int furthest(Trace trace) {
        int position = channel("reach.position").index();
        return IntStream.range(0, trace.rows())
                .map(row -> trace.real(row, position))
                .max()
                .orElseThrow();
    }

    private static ChannelDescription channel(String name) {
        return Shuttle.description().channel(name).orElseThrow();
    }

    @Test
    void withoutAGuardTheArmWouldHitItsStop() throws Exception {
        Trace trace = run(Shuttle.link("without-rack"), frozenEncoder(), 1, false);

        assertTrue(furthest(trace) >= HARD_STOP, () -> "came to " + furthest(trace));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8})
    void theTravelGuardStopsItBeforeAndLatches(int seed) throws Exception {
        FaultScript script = frozenEncoder();
        Trace trace = run(Shuttle.link("without-rack"), script, seed, true);

        assertTrue(furthest(trace) > GUARDED, () -> "came to " + furthest(trace));
        assertTrue(furthest(trace) < HARD_STOP, () -> "came to " + furthest(trace));
        int last = trace.flags(trace.rows() - 1);
        assertEquals(Record.LATCHED, last & (Record.LATCHED | Record.STOPPING | Record.ARMED), "latched, and standing");
        int position = channel("reach.position").index();
        assertTrue(
                trace.told(firstLatched(trace), position) < GUARDED,
                "the control code was still told the frozen reading: guards watch the truth");
        var judgement = Judge.judge(script, trace, Shuttle.file());
        assertEquals(Verdict.ERROR, judgement.verdict());
        assertTrue(
                judgement.reasons().stream()
                        .anyMatch(one -> one.startsWith("guard reach travel tripped: reach.position was really 40")),
                () -> judgement.reasons().toString());
    }

    private static int firstLatched(Trace trace) {
        return IntStream.range(0, trace.rows())
                .filter(row -> (trace.flags(row) & Record.LATCHED) != 0)
                .findFirst()
                .orElseThrow();
    }

    @Test
    void overridesStayUntilTheArmStands() throws Exception {
        Trace trace = run(Shuttle.link("without-rack"), frozenEncoder(), 1, true);

        int stopping = 0;
        for (int row = firstLatched(trace); row < trace.rows(); row++) {
            boolean isStopping = (trace.flags(row) & Record.STOPPING) != 0;
            assertEquals(isStopping, trace.active(row) != 0, "an entry is on while the stop runs, row " + row);
            stopping += isStopping ? 1 : 0;
        }
        assertTrue(stopping > 1, "the stop took its time");
        int position = channel("reach.position").index();
        int end = trace.rows() - 1;
        assertEquals(trace.real(end - 1, position), trace.real(end, position), "it stands");
    }

    @Test
    void aRunReportsAnErrorWithTheGuardsNameAndGoesOnOnAVirtualRig() throws Exception {
        RunRecord run =
                Runs.on("without-rack").of(1, frozenEncoder(), frozenEncoder()).run();

        assertEquals(2, run.results().size());
        for (ScriptResult result : run.results()) {
            List<String> details = ResultText.details(result);
            assertEquals(Verdict.ERROR, result.judgement().verdict(), details::toString);
            assertTrue(
                    details.stream().anyMatch(line -> line.contains("guard reach travel tripped")), details::toString);
        }
        assertEquals(RunEnd.Cause.COMPLETE, run.end().orElseThrow().cause());
    }
}
