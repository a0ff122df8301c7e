package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import java.util.OptionalLong;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.bench.trace.Trace;

/** That a fail is known while a script still runs, not before it is certain and not later than by the tick that settles it. */
class SettledFailTests {
    private static final int CASES = 60;
    private static final int TICKS = 14;

    /**
     * On random scripts and traces, whole and with losses, and looked at after random numbers of records: what is said while it
     * runs is what the judge says of the whole, and of a trace of which nothing is lost, what the plain evaluator says.
     */
    @ParameterizedTest
    @EnumSource(OracleTests.Kind.class)
    void saysWhileItRunsWhatIsSaidOfTheWhole(OracleTests.Kind kind) {
        int fails = 0;
        int early = 0;
        for (int seed = 0; seed < CASES; seed++) {
            SplittableRandom random =
                    new SplittableRandom(seed * 7919L + kind.name().hashCode());
            PlainTrace plain = PlainTrace.random(random, TICKS);
            FaultScript script = OracleTests.script(random, kind);
            SyntheticTrace played = plain.synthetic();
            boolean lossy = seed % 2 == 1;
            if (lossy) {
                OracleTests.lose(random, played, plain.events.size());
            }
            Trace trace = played.trace();
            if (trace.rows() == 0) {
                continue;
            }
            String words = kind + ", seed " + seed + ": " + script.expectations() + plain;
            OptionalLong expected = firstFailedPrefix(script, trace, words);
            assertEquals(expected, lookedAtInBits(random, script, trace), words);
            Judgement whole = Judge.judge(script, trace, Scripts.rig(0));
            assertEquals(whole.verdict() == Verdict.FAIL, expected.isPresent(), words);
            assertEquals(expected, whole.settledTick(), words);
            if (!lossy && kind != OracleTests.Kind.DERIVED && kind != OracleTests.Kind.RATE) {
                assertEquals(failsPlainly(script, plain), expected.isPresent(), words);
            }
            fails += expected.isPresent() ? 1 : 0;
            early += expected.isPresent() && expected.getAsLong() < trace.tick(trace.rows() - 1) ? 1 : 0;
        }
        assertTrue(fails >= CASES / 10 && early >= CASES / 12, kind + ": " + fails + " fails, " + early + " early");
    }

    /** The judge asked after every record, as plainly as can be; and once it has said so it must go on saying so. */
    private static OptionalLong firstFailedPrefix(FaultScript script, Trace trace, String words) {
        OptionalLong first = OptionalLong.empty();
        for (int row = 0; row < trace.rows(); row++) {
            Judgement soFar = Judge.judge(script, trace.upTo(trace.micros(row)), Scripts.rig(0));
            boolean failed = soFar.findings().stream()
                    .limit(script.expectations().size())
                    .anyMatch(one -> one.verdict() == Verdict.FAIL);
            if (first.isPresent()) {
                assertTrue(failed, words + ": a fail in tick " + first + " was taken back in " + trace.tick(row));
            } else if (failed) {
                first = OptionalLong.of(trace.tick(row));
            }
        }
        return first;
    }

    private static OptionalLong lookedAtInBits(SplittableRandom random, FaultScript script, Trace trace) {
        SettledFail online = new SettledFail(script, Scripts.rig(0));
        for (int row = random.nextInt(3); row < trace.rows() - 1; row += 1 + random.nextInt(4)) {
            online.look(trace.upTo(trace.micros(row)));
        }
        return online.look(trace);
    }

    private static boolean failsPlainly(FaultScript script, PlainTrace plain) {
        NaiveEvaluator naive = new NaiveEvaluator(script, plain);
        return IntStream.range(0, script.expectations().size())
                .anyMatch(i -> !naive.isMet(i).orElse(true));
    }

    private static SyntheticTrace struck(int ticks) {
        return new SyntheticTrace(ticks)
                .step(20, "REACHING")
                .told(POSITION, tick -> 1)
                .on(40, 0);
    }

    private static OptionalLong look(Scripts script, SyntheticTrace trace) {
        return new SettledFail(script.script(), Scripts.rig(100)).look(trace.trace());
    }

    /** Ticks are 5 ms apart, the strike is in tick 40: tick 90 is the last that could meet the deadline. */
    @ParameterizedTest
    @CsvSource({"90, -1", "91, 90", "200, 90"})
    void aDeadlineIsMissedWithTheLastTickThatCouldMeetIt(int ticks, long settled) {
        Scripts script = new Scripts().answeredBy("sees it", FS_02, within(250), INJECTION);

        assertEquals(settled < 0 ? OptionalLong.empty() : OptionalLong.of(settled), look(script, struck(ticks)));
    }

    @Test
    void aLimitIsBrokenInTheTickThatBreaksIt() {
        Scripts script =
                new Scripts().always(when(term(CURRENT, Relation.BELOW, 100))).end(900, BEGIN);

        assertEquals(OptionalLong.of(60), look(script, struck(120).real(CURRENT, tick -> tick == 60 ? 100 : 99)));
    }

    @Test
    void whatMustAlwaysHoldIsNeverTrueBeforeItsEnd() {
        Scripts script =
                new Scripts().always(when(term(CURRENT, Relation.BELOW, 100))).end(900, BEGIN);

        Judgement judgement = Judge.judge(
                script.script(), struck(120).real(CURRENT, tick -> 99).trace(), Scripts.rig(0));

        assertEquals(Verdict.INCONCLUSIVE, judgement.verdict());
        assertEquals(OptionalLong.empty(), judgement.settledTick());
    }

    /** A record tells how many events there were, so that a report that is still under way is not taken for silence. */
    @Test
    void aReportThatIsStillOnItsWayIsNoMiss() {
        Scripts script = new Scripts().answeredBy("sees it", FS_02, within(250), INJECTION);

        assertEquals(
                OptionalLong.empty(), look(script, struck(200).answered(60, 2).loseEvent(3)));
    }

    @Test
    void aTraceThatEndsBeforeTheScriptSaysThatItHadFailed() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .always(when(term(CURRENT, Relation.BELOW, 100)))
                .end(5000, BEGIN);

        Judgement judgement = Judge.judge(script.script(), struck(200).trace(), Scripts.rig(0));

        assertEquals(Verdict.FAIL, judgement.verdict());
        assertEquals(OptionalLong.of(90), judgement.settledTick());
        assertEquals(
                "what was recorded ends before the script does; it had failed by tick 90, whatever would have come behind"
                        + " that",
                judgement.reasons().get(0));
    }

    @Test
    void aFailAtTheEndOfAWholeTraceIsSettledToo() {
        Scripts script = new Scripts().answeredBy("sees it", FS_02, within(250), INJECTION);

        Judgement judgement = Judge.judge(script.script(), struck(200).trace(), Scripts.rig(0));

        assertEquals(OptionalLong.of(90), judgement.settledTick());
        assertTrue(judgement.reasons().isEmpty(), judgement.reasons()::toString);
    }
}
