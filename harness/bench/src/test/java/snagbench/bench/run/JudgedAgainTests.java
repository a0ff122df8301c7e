package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.ValueMargin;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.Shuttle;
import snagbench.bench.trace.TraceFile;

/** A stored trace is judged again where no rig is at hand, not even a virtual one: its stored description is enough. */
class JudgedAgainTests {
    private static final RunTerms TO_THE_END = new RunTerms(Set.of(), Optional.empty(), false, true, false);

    private static RigFile withoutVirtualRig() {
        RigFile file = Shuttle.file();
        return new RigFile(
                file.place(),
                file.name(),
                Optional.empty(),
                file.line(),
                file.leaseMillis(),
                file.settlingMicros(),
                file.ready(),
                file.guards(),
                file.wiring(),
                file.snapshot(),
                file.derived(),
                file.compounds(),
                file.filterDelays(),
                file.clearFloor(),
                file.adjustable());
    }

    private static FaultScript blocked(String within, String voltage) throws IOException {
        return Shuttle.script("blocked", "FS-02", """
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
                    within: %s
                  - always: { battery.voltage: above %s }
                end: 4 s after injection 1
                """.formatted(within, voltage));
    }

    private static final class Ran {
        private final Judgement judgement;
        private final byte[] trace;

        private Ran(Judgement judgement, byte[] trace) {
            this.judgement = judgement;
            this.trace = trace;
        }

        Judgement judgement() {
            return judgement;
        }

        static Ran of(String build, FaultScript script, RunTerms terms) throws Exception {
            Runs runs = Runs.on(build).of(5, script).on(terms);
            ScriptResult result = runs.only();
            return new Ran(result.judgement(), runs.trace(result));
        }

        Judgement again(FaultScript script) throws IOException {
            return new TraceJudge(
                            TraceFile.read(new ByteArrayInputStream(trace)), withoutVirtualRig(), Shuttle.description())
                    .judge(script, "a.trace")
                    .judgement();
        }
    }

    @ParameterizedTest
    @CsvSource({
        "standard, reach-blocked-midway, PASS",
        "standard, grip-not-there-yet, PASS",
        "without-FS-02, reach-blocked-midway, FAIL",
        "without-FS-02, obstacle-in-the-way, FAIL"
    })
    void theSameScriptHasTheSameVerdictAndMargins(String build, String name, Verdict verdict) throws Exception {
        FaultScript script = Shuttle.script(name);
        Ran ran = Ran.of(build, script, RunTerms.none());

        Judgement again = ran.again(script);

        assertEquals(verdict, again.verdict());
        assertEquals(margins(ran.judgement()), margins(again));
        assertEquals(ran.judgement(), again);
    }

    private static List<OptionalLong> margins(Judgement judgement) {
        return judgement.findings().stream().map(Finding::marginMicros).toList();
    }

    @Test
    void aTighterDeadlineFailsByWhatTheAnswerWasLaterThanIt() throws Exception {
        Ran ran = Ran.of("standard", blocked("80 ms .. 250 ms", "7 V"), RunTerms.none());
        Finding met = ran.judgement().findings().get(0);
        long strike = ran.judgement().injections().get(0).firstMicros().orElseThrow();
        long answered = met.metMicros().orElseThrow() - strike;
        long exactMillis = answered / 1000;

        assertEquals(Verdict.PASS, ran.judgement().verdict());
        long tighter = exactMillis - 10;
        Judgement late = ran.again(blocked("10 ms .. " + tighter + " ms", "7 V"));
        assertEquals(Verdict.FAIL, late.verdict());
        assertEquals(OptionalLong.of(tighter * 1000 - answered), late.marginMicros());
        assertTrue(late.marginMicros().getAsLong() < 0, late::toString);

        // The last whole millisecond before it is too early by less than one, the next one is in time.
        Judgement justLate = ran.again(blocked("10 ms .. " + (answered - 1) / 1000 + " ms", "7 V"));
        assertEquals(Verdict.FAIL, justLate.verdict());
        Judgement justInTime = ran.again(blocked("10 ms .. " + (exactMillis + 1) + " ms", "7 V"));
        assertEquals(Verdict.PASS, justInTime.verdict());
        assertEquals(OptionalLong.of((exactMillis + 1) * 1000 - answered), justInTime.marginMicros());
    }

    @Test
    void aLooserLimitPassesWhereTheTraceReachesToTheEnd() throws Exception {
        FaultScript looser = blocked("80 ms .. 250 ms", "7 V");
        Ran whole = Ran.of("standard", blocked("80 ms .. 250 ms", "20 V"), TO_THE_END);

        assertEquals(Verdict.FAIL, whole.judgement().verdict());
        Judgement again = whole.again(looser);
        assertEquals(Verdict.PASS, again.verdict());
        // The limit is 13 V lower, and the readings are the same. So is the least of them.
        BigDecimal before = volts(whole.judgement());
        assertTrue(before.signum() < 0, before::toString);
        assertEquals(0, before.add(BigDecimal.valueOf(13)).compareTo(volts(again)), () -> before + ", " + volts(again));
    }

    private static BigDecimal volts(Judgement judgement) {
        ValueMargin margin = judgement.findings().get(1).marginValue().orElseThrow();
        assertEquals("V", margin.unit());
        return BigDecimal.valueOf(margin.steps() * margin.stepMultiplier()).scaleByPowerOfTen(margin.stepExponent());
    }

    @Test
    void aLooserLimitSettlesNothingWhereTheRunHadEndedEarly() throws Exception {
        Ran early = Ran.of("standard", blocked("80 ms .. 250 ms", "20 V"), RunTerms.none());

        assertEquals(Verdict.FAIL, early.judgement().verdict());
        Judgement again = early.again(blocked("80 ms .. 250 ms", "7 V"));
        assertEquals(Verdict.INCONCLUSIVE, again.verdict());
        assertEquals(Verdict.INCONCLUSIVE, again.findings().get(1).verdict());
    }
}
