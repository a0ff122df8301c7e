package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.FaultScript;
import snagbench.bench.session.Shuttle;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceFile;

/** On the virtual shuttle: a script that has failed for certain ends early, with the verdict of a run to the end; no other does. */
class EarlyEndTests {
    private static final RunTerms TO_THE_END = new RunTerms(Set.of(), Optional.empty(), false, true, false);
    private static final long LISTENED_BEHIND_A_FAIL_MICROS = 2_000_000;

    /** Without FS-02 it fails 250 ms behind the injection, and would be listened to for 9 s more. */
    private static FaultScript blocked(String more) throws IOException {
        return Shuttle.script("blocked and long", "FS-02", """
                inject:
                  - when: { step: REACHING, reach.position: at least 180 mm }
                    channels:
                      reach.position: freeze
                      reach.current: stuck-at 4.2 A
                    until: { failsafe: FS-02 }
                    lasts: 900 ms
                expect:
                  - name: sees it
                    answered-by: FS-02
                    within: 80 ms .. 250 ms
                """ + more + "end: 9 s after injection 1\n");
    }

    private record Ran(ScriptResult result, Runs runs) {
        Judgement judgement() {
            return result.judgement();
        }

        Trace trace() throws IOException {
            return TraceFile.read(new ByteArrayInputStream(runs.trace(result))).trace();
        }
    }

    private static Ran run(String build, FaultScript script, RunTerms terms) throws Exception {
        Runs runs = Runs.on(build).of(3, script).on(terms);
        return new Ran(runs.only(), runs);
    }

    @Test
    void aScriptThatHasFailedForCertainEndsTwoSecondsLaterWithTheSameVerdict() throws Exception {
        FaultScript script = blocked("");
        Ran early = run("without-FS-02", script, RunTerms.none());
        Ran whole = run("without-FS-02", script, TO_THE_END);

        assertEquals(Verdict.FAIL, early.judgement().verdict());
        assertEquals(Verdict.FAIL, whole.judgement().verdict());
        assertEquals(whole.judgement().settledTick(), early.judgement().settledTick());

        Trace trace = early.trace();
        int tick = Math.toIntExact(early.judgement().settledTick().orElseThrow());
        long settled = trace.micros(trace.rowAtOrAfter(tick));
        long strike = early.judgement().injections().get(0).firstMicros().orElseThrow();
        // The first tick behind the deadline: the one before it was still in time.
        assertTrue(settled > strike + 250_000, settled + " for a strike at " + strike);
        assertTrue(trace.micros(trace.rowAtOrAfter(tick - 1)) <= strike + 250_000);
        assertTrue(early.result().rigMicros() >= settled + LISTENED_BEHIND_A_FAIL_MICROS - trace.longestLoopMicros());
        assertTrue(early.result().rigMicros() < settled + 2 * LISTENED_BEHIND_A_FAIL_MICROS);
        assertTrue(whole.result().rigMicros() >= strike + 9_000_000 - trace.longestLoopMicros());
    }

    @Test
    void theJournalNamesTheTickThatSettledItAndTheReasonForTheEarlyEnd() throws Exception {
        FaultScript script = blocked("");
        Ran early = run("without-FS-02", script, RunTerms.none());
        Ran whole = run("without-FS-02", script, TO_THE_END);
        long tick = early.judgement().settledTick().orElseThrow();

        assertTrue(
                early.runs().resultLines().get(0).contains("\"settledTick\":" + tick),
                early.runs().resultLines()::toString);
        assertTrue(whole.runs().resultLines().get(0).contains("\"settledTick\":" + tick));
        String why = "what was recorded ends before the script does; it had failed by tick " + tick
                + ", whatever would have come behind that";
        assertTrue(early.judgement().reasons().contains(why), early.judgement().reasons()::toString);
        assertTrue(early.runs().resultLines().get(0).contains(why));
        assertEquals(List.of(), whole.judgement().reasons());
    }

    @Test
    void whatWasNotWaitedForStaysOpenAndIsSettledByARunToTheEnd() throws Exception {
        FaultScript script = blocked("""
                  - always: { battery.voltage: above 7 V }
                """);
        Ran early = run("without-FS-02", script, RunTerms.none());
        Ran whole = run("without-FS-02", script, TO_THE_END);

        assertEquals(Verdict.INCONCLUSIVE, early.judgement().findings().get(1).verdict());
        assertEquals(Verdict.PASS, whole.judgement().findings().get(1).verdict());
        assertEquals(Verdict.FAIL, early.judgement().verdict());
        assertEquals(Verdict.FAIL, whole.judgement().verdict());
    }

    @Test
    void howLateAnAnswerWasIsStillHeard() throws Exception {
        FaultScript script = blocked("""
                  - name: sees it at once
                    answered-by: FS-02
                    within: 20 ms
                """);
        Ran early = run("standard", script, RunTerms.none());
        Ran whole = run("standard", script, TO_THE_END);

        long margin = early.judgement().marginMicros().orElseThrow();
        assertTrue(margin <= -60_000 && margin >= -230_000, "it comes 80 ms to 250 ms behind the fault: " + margin);
        assertEquals(whole.judgement().marginMicros(), early.judgement().marginMicros());
        assertEquals(
                whole.judgement().findings().get(1),
                early.judgement().findings().get(1));
        assertEquals(whole.judgement().settledTick(), early.judgement().settledTick());
        assertTrue(early.result().rigMicros() < whole.result().rigMicros() - 5_000_000);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "reach-blocked-midway",
                "current-spike-too-short",
                "grip-not-there-yet",
                "obstacle-in-the-way",
                "reach-current-too-high"
            })
    void aScriptThatPassesIsNeverEndedEarly(String name) throws Exception {
        FaultScript script = Shuttle.script(name);
        Ran usual = run("standard", script, RunTerms.none());
        Ran whole = run("standard", script, TO_THE_END);

        assertEquals(Verdict.PASS, usual.judgement().verdict());
        assertEquals(OptionalLong.empty(), usual.judgement().settledTick());
        assertEquals(whole.judgement(), usual.judgement());
        assertEquals(whole.result().rigMicros(), usual.result().rigMicros());
        assertArrayEquals(whole.runs().trace(whole.result()), usual.runs().trace(usual.result()));
    }
}
