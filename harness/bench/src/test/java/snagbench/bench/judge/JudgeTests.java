package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.FS_01;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.VOLTAGE;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Fault;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.wire.EntryEnd;
import snagbench.wire.EventKind;
import snagbench.wire.StopReason;

/** Ticks are 5 ms apart and the fault strikes in tick 40, so 250 ms later is tick 90. */
class JudgeTests {
    private static final int STRIKE = 40;
    /** The arm reaches from tick 20 on; its encoder is frozen in tick 40. */
    private static SyntheticTrace blocked() {
        return new SyntheticTrace(400)
                .step(20, "REACHING")
                .real(POSITION, tick -> 10 * tick)
                .told(POSITION, tick -> 10 * (STRIKE - 1))
                .on(STRIKE, 0);
    }

    private static Judgement judge(Scripts script, SyntheticTrace trace) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(1500));
    }

    private static String text(Finding finding) {
        return finding.facts().stream()
                .map(fact -> fact.label() + ": " + fact.text())
                .collect(Collectors.joining("\n"));
    }

    private static Scripts seesIt() {
        return new Scripts().failSafe(FS_02).answeredBy("sees it", FS_02, within(80, 250), INJECTION);
    }

    @ParameterizedTest
    @CsvSource({"89, PASS, 5000", "90, PASS, 0", "91, FAIL, -5000", "140, FAIL, -250000"})
    void anAnswerIsInTimeUpToTheDeadline(int tick, Verdict verdict, long margin) {
        Judgement judgement = judge(seesIt(), blocked().answered(tick, 2));

        assertEquals(verdict, judgement.verdict());
        assertEquals(OptionalLong.of(margin), judgement.marginMicros());
        assertEquals(OptionalLong.of((tick - STRIKE) * 5000L), judgement.detectionMicros());
    }

    @ParameterizedTest
    @CsvSource({"55, FAIL", "56, PASS", "57, PASS", "40, FAIL"})
    void anAnswerBeforeTheLowerEdgeIsWrongToo(int tick, Verdict verdict) {
        assertEquals(verdict, judge(seesIt(), blocked().answered(tick, 2)).verdict());
    }

    /** 80 ms to 250 ms are ticks 56 to 90. */
    @ParameterizedTest
    @CsvSource({"56, 0", "57, 5000", "72, 80000", "74, 80000", "89, 5000"})
    void theMarginIsTheDistanceToTheNearerEdge(int tick, long margin) {
        assertEquals(
                OptionalLong.of(margin),
                judge(seesIt(), blocked().answered(tick, 2)).marginMicros());
    }

    @Test
    void tellsByHowMuchAnAnswerWasTooEarly() {
        Finding finding = judge(seesIt(), blocked().answered(55, 2)).findings().get(0);

        assertEquals("""
                expected: FS-02 answers 80 ms to 250 ms after the injection
                but was: FS-02 answers at +75.0 ms (5.0 ms too early)
                script: reach-blocked.fault.yaml:20
                trace: tick 55""", text(finding));
        assertEquals(OptionalLong.of(-5000), finding.marginMicros());
    }

    @Test
    void tellsByHowMuchAnAnswerWasLate() {
        Finding finding = judge(seesIt(), blocked().answered(103, 2)).findings().get(0);

        assertEquals("""
                expected: FS-02 answers 80 ms to 250 ms after the injection
                but was: FS-02 silent, step REACHING at +255.0 ms
                reached: FS-02 answers at +315.0 ms (65.0 ms late)
                script: reach-blocked.fault.yaml:20
                trace: tick 103""", text(finding));
    }

    @Test
    void anAnswerThatNeverComesHasNoMargin() {
        Judgement judgement = judge(seesIt(), blocked());

        assertEquals(Verdict.FAIL, judgement.verdict());
        assertEquals(OptionalLong.empty(), judgement.marginMicros());
        assertEquals(OptionalLong.empty(), judgement.detectionMicros());
        assertTrue(text(judgement.findings().get(0))
                .contains("reached: not by the end of the trace at +1795.0 ms (1545.0 ms late at least)"));
    }

    @Test
    void theLimitIsToldWhetherItIsMetOrNot() {
        OptionalLong limit = OptionalLong.of(STRIKE * 5000L + 250_000);
        // Too early, in time, late.
        for (int tick : new int[] {55, 72, 103}) {
            Finding finding =
                    judge(seesIt(), blocked().answered(tick, 2)).findings().get(0);
            assertEquals(limit, finding.limitMicros(), tick + ": " + text(finding));
        }
        assertEquals(limit, judge(seesIt(), blocked()).findings().get(0).limitMicros());
    }

    @Test
    void whatCountsFromSomethingThatNeverCameHasNoLimit() {
        Scripts script = seesIt().becomes("draws back", when(step("DRAWING_BACK")), within(50), after(0, "sees it"));

        assertEquals(
                OptionalLong.empty(), judge(script, blocked()).findings().get(1).limitMicros());
    }

    @Test
    void aReportInTheFirstToldTickCounts() {
        Scripts script = new Scripts().answeredBy("sees it", FS_02, within(250), INJECTION);

        assertEquals(Verdict.PASS, judge(script, blocked().answered(STRIKE, 2)).verdict());
    }

    @Test
    void aReportFromBeforeTheFaultDoesNotCount() {
        assertEquals(
                Verdict.FAIL, judge(seesIt(), blocked().answered(STRIKE - 1, 2)).verdict());
    }

    @Test
    void anotherReportBeforeTheAnswerFailsWhereNoOtherIsAllowed() {
        Scripts script = new Scripts().answeredByNoOther("sees it", FS_02, within(250));

        assertEquals(
                Verdict.FAIL,
                judge(script, blocked().answered(60, 1).answered(61, 2)).verdict());
        assertEquals(
                Verdict.PASS,
                judge(script, blocked().answered(61, 2).answered(62, 1)).verdict());
        assertEquals(
                Verdict.PASS,
                judge(script, blocked().answered(30, 1).answered(61, 2)).verdict());
    }

    @ParameterizedTest
    @CsvSource({"89, PASS", "90, PASS", "91, FAIL"})
    void aStepIsInTimeUpToTheDeadline(int tick, Verdict verdict) {
        Scripts script = new Scripts().becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION);

        Judgement judgement = judge(script, blocked().step(tick, "DRAWING_BACK"));

        assertEquals(verdict, judgement.verdict());
        assertEquals(OptionalLong.of((90 - tick) * 5000L), judgement.marginMicros());
        assertEquals(
                verdict == Verdict.PASS ? OptionalLong.of((tick - STRIKE) * 5000L) : OptionalLong.empty(),
                judgement.recoveryMicros());
    }

    @ParameterizedTest
    @CsvSource({"55, FAIL", "56, PASS", "57, PASS"})
    void aStepBeforeTheLowerEdgeIsWrongToo(int tick, Verdict verdict) {
        Scripts script = new Scripts().becomes("draws back", when(step("DRAWING_BACK")), within(80, 250), INJECTION);

        assertEquals(
                verdict, judge(script, blocked().step(tick, "DRAWING_BACK")).verdict());
    }

    @Test
    void tellsByHowMuchAStepWasLate() {
        Scripts script = new Scripts().becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION);

        Finding finding = judge(
                        script,
                        blocked()
                                .clock(tick -> tick * 5000 + (tick > STRIKE ? 100 : 0))
                                .step(102, "DRAWING_BACK"))
                .findings()
                .get(0);

        assertEquals("""
                expected: step DRAWING_BACK within 250 ms of the injection
                but was: step REACHING at +250.1 ms, since -100.0 ms
                reached: step DRAWING_BACK at +310.1 ms (60.1 ms late)
                script: reach-blocked.fault.yaml:20
                trace: tick 102""", text(finding));
    }

    @Test
    void aStepOfOneTickCounts() {
        Scripts script = new Scripts().becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION);

        assertEquals(
                Verdict.PASS,
                judge(script, blocked().step(60, "DRAWING_BACK").step(61, "REACHING"))
                        .verdict());
    }

    @Test
    void aStepThatIsOnAlreadyMustBeEnteredAnew() {
        Scripts script = new Scripts().becomes("reaches again", when(step("REACHING")), within(250), INJECTION);

        assertEquals(Verdict.FAIL, judge(script, blocked()).verdict());
        assertEquals(
                Verdict.PASS,
                judge(script, blocked().step(60, "DRAWING_BACK").step(80, "REACHING"))
                        .verdict());
    }

    /** No record shows it: the step is the same at the end of the tick, and only the events tell that it was left. */
    @Test
    void aStepThatIsLeftAndEnteredWithinATickIsEnteredAnew() {
        Scripts script = new Scripts().becomes("reaches again", when(step("REACHING")), within(250), INJECTION);

        Judgement judgement = judge(script, blocked().step(60, "DRAWING_BACK").step(60, "REACHING"));

        assertEquals(Verdict.PASS, judgement.verdict());
        assertEquals(OptionalLong.of(60), judgement.findings().get(0).metTick());
    }

    @Test
    void aStepEnteredInTheTickOfTheAnswerFollowsOnIt() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .becomes("draws back", when(step("DRAWING_BACK")), within(50), after(0, "sees it"))
                .becomes("reaches again", when(step("REACHING")), within(500), after(1, "draws back"));

        SyntheticTrace trace =
                blocked().answered(60, 2).step(60, "DRAWING_BACK").step(120, "REACHING");

        Judgement judgement = judge(script, trace);
        assertEquals(Verdict.PASS, judgement.verdict());
        assertEquals(OptionalLong.of(80 * 5000L), judgement.recoveryMicros());
        assertEquals(OptionalLong.of(20 * 5000L), judgement.detectionMicros());
    }

    @Test
    void aStateThatMeetsAnAnchorDoesNotMeetWhatFollowsOnIt() {
        Scripts script = new Scripts()
                .becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION)
                .becomes("and once more", when(step("DRAWING_BACK")), within(250), after(0, "draws back"));

        assertEquals(
                Verdict.FAIL, judge(script, blocked().step(60, "DRAWING_BACK")).verdict());
        assertEquals(
                Verdict.PASS,
                judge(
                                script,
                                blocked()
                                        .step(60, "DRAWING_BACK")
                                        .step(70, "REACHING")
                                        .step(80, "DRAWING_BACK"))
                        .verdict());
    }

    @Test
    void anAnchorThatWasNotMetIsReportedOnce() {
        Scripts script = seesIt().becomes("reaches again", when(step("REACHING")), within(500), after(0, "sees it"));

        Judgement judgement = judge(script, blocked().step(70, "DRAWING_BACK").step(120, "REACHING"));

        assertEquals(Verdict.FAIL, judgement.findings().get(0).verdict());
        assertEquals(Verdict.INCONCLUSIVE, judgement.findings().get(1).verdict());
        assertTrue(text(judgement.findings().get(1)).contains("its anchor \"sees it\" was not met"));
    }

    @ParameterizedTest
    @CsvSource({"89, PASS", "90, PASS", "91, FAIL"})
    void aMixedConditionIsInTimeUpToTheDeadline(int tick, Verdict verdict) {
        Scripts script = new Scripts()
                .becomes(
                        "eases off",
                        when(step("REACHING"), term(CURRENT, Relation.BELOW, 100)),
                        within(250),
                        INJECTION);

        assertEquals(
                verdict,
                judge(script, blocked().real(CURRENT, at -> at < tick ? 100 : 99))
                        .verdict());
    }

    @Test
    void aMixedConditionThatHoldsAlreadyMustComeAboutAnew() {
        Scripts script =
                new Scripts().becomes("eases off", when(term(CURRENT, Relation.BELOW, 100)), within(250), INJECTION);

        assertEquals(
                Verdict.FAIL, judge(script, blocked().real(CURRENT, at -> 99)).verdict());
        assertEquals(
                Verdict.PASS,
                judge(script, blocked().real(CURRENT, at -> at == 60 ? 100 : 99))
                        .verdict());
    }

    @ParameterizedTest
    @CsvSource({"700, FAIL", "701, PASS"})
    void aLimitHoldsInEveryTick(int lowest, Verdict verdict) {
        Scripts script = seesIt().always(when(term(VOLTAGE, Relation.ABOVE, 700)));

        assertEquals(
                verdict,
                judge(script, blocked().answered(60, 2).real(VOLTAGE, at -> at == 200 ? lowest : 1200))
                        .verdict());
    }

    @Test
    void tellsTheFirstViolationAndHowFarBeyondTheLimitItWas() {
        Scripts script = seesIt().always(when(term(VOLTAGE, Relation.ABOVE, 700)));

        Finding finding = judge(script, blocked().answered(60, 2).real(VOLTAGE, at -> at < 200 ? 1200 : 642))
                .findings()
                .get(1);

        assertEquals("""
                expected: always battery.voltage above 7.00 V, from the beginning on
                but was: battery.voltage 6.42 V at +1000.0 ms (0.58 V beyond the limit)
                lasted: 955.0 ms
                script: reach-blocked.fault.yaml:21
                trace: tick 200""", text(finding));
    }

    @Test
    void tellsHowCloseALimitThatHeldWasCome() {
        Scripts script = seesIt().always(when(term(VOLTAGE, Relation.ABOVE, 700)));

        Finding finding = judge(script, blocked().answered(60, 2).real(VOLTAGE, at -> at == 210 ? 744 : 1200))
                .findings()
                .get(1);

        assertTrue(text(finding).contains("closest: battery.voltage 7.44 V at +1050.0 ms (0.44 V to spare)"));
    }

    @Test
    void whatMustNeverBeFailsInTheTickInWhichItIs() {
        Scripts script = seesIt().never(when(step("GIVEN_UP")));

        Judgement judgement = judge(script, blocked().answered(60, 2).step(333, "GIVEN_UP"));

        assertEquals(Verdict.FAIL, judgement.verdict());
        assertTrue(text(judgement.findings().get(1)).contains("but was: step GIVEN_UP at +1665.0 ms"));
        assertEquals(Verdict.PASS, judge(script, blocked().answered(60, 2)).verdict());
    }

    @Test
    void aLimitCountsFromTheEndOfTheBeginning() {
        Scripts script = seesIt().waitFor(when(step("REACHING")), 2000).never(when(step("READY")));
        SyntheticTrace trace = new SyntheticTrace(400)
                .step(20, "REACHING")
                .stageDone(20, 0)
                .real(POSITION, tick -> 10 * tick)
                .told(POSITION, tick -> 0)
                .on(STRIKE, 1)
                .answered(60, 2);

        assertEquals(Verdict.PASS, judge(script, trace).verdict());
    }

    @Test
    void whatComesBehindTheWrittenEndIsNotJudged() {
        Scripts script = seesIt().never(when(step("GIVEN_UP"))).end(1000, after(0, "sees it"));

        assertEquals(
                Verdict.PASS,
                judge(script, blocked().answered(60, 2).step(261, "GIVEN_UP")).verdict());
        assertEquals(
                Verdict.FAIL,
                judge(script, blocked().answered(60, 2).step(260, "GIVEN_UP")).verdict());
    }

    @Test
    void aFailSafeThatMustNotFireFailsWhenItDoes() {
        Scripts script = new Scripts().failSafe(FS_01).mustNotFire(FS_01);

        assertEquals(Verdict.PASS, judge(script, blocked()).verdict());
        assertEquals(Verdict.PASS, judge(script, blocked().answered(50, 2)).verdict());
        assertEquals(Verdict.FAIL, judge(script, blocked().answered(50, 1)).verdict());
        assertEquals(Verdict.FAIL, judge(script, blocked().answered(10, 1)).verdict());
    }

    @Test
    void aTraceThatEndsBeforeTheWindowClosesSettlesNothing() {
        Scripts script = seesIt();
        SyntheticTrace upTo89 = new SyntheticTrace(90).on(STRIKE, 0).told(POSITION, tick -> 1);
        SyntheticTrace upTo90 = new SyntheticTrace(91).on(STRIKE, 0).told(POSITION, tick -> 1);

        assertEquals(Verdict.INCONCLUSIVE, judge(script, upTo89).verdict());
        assertEquals(Verdict.FAIL, judge(script, upTo90).verdict());
        assertTrue(text(judge(script, upTo89).findings().get(0)).contains("the trace ends at +245.0 ms"));
    }

    @Test
    void alwaysIsNotTrueBeforeTheScriptsEnd() {
        Scripts script =
                seesIt().always(when(term(VOLTAGE, Relation.ABOVE, 700))).end(1000, INJECTION);

        SyntheticTrace shortOne =
                new SyntheticTrace(240).on(STRIKE, 0).told(POSITION, tick -> 1).answered(60, 2);
        SyntheticTrace longEnough =
                new SyntheticTrace(241).on(STRIKE, 0).told(POSITION, tick -> 1).answered(60, 2);

        assertEquals(Verdict.INCONCLUSIVE, judge(script, shortOne).verdict());
        assertEquals(Verdict.PASS, judge(script, longEnough).verdict());
    }

    @Test
    void unevenTicksAreJudgedByTheirClock() {
        // Ticks of 3 ms and 7 ms in turn: 250 ms behind tick 40 at 200 ms is tick 90 at 450 ms.
        Scripts script = seesIt();

        assertEquals(Verdict.PASS, judge(script, uneven().answered(90, 2)).verdict());
        assertEquals(Verdict.FAIL, judge(script, uneven().answered(91, 2)).verdict());
        assertEquals(
                OptionalLong.of(-3000), judge(script, uneven().answered(91, 2)).marginMicros());
    }

    private static SyntheticTrace uneven() {
        return blocked().clock(tick -> tick * 5000 - (tick % 2 == 0 ? 0 : 2000));
    }

    @Test
    void aBeginningThatWasNotDoneInTimeSettlesNothing() {
        Scripts script = seesIt().waitFor(when(step("REACHING")), 500);

        Judgement judgement = judge(script, new SyntheticTrace(150).stageTimedOut(100, 0));

        assertEquals(Verdict.INCONCLUSIVE, judgement.verdict());
        assertEquals(List.of("step READY at +500.0 ms from arming"), judgement.reasons());
        Finding beginning = judgement.findings().get(1);
        assertEquals("""
                expected: step REACHING within 500 ms
                but was: step READY at +500.0 ms from arming
                script: reach-blocked.fault.yaml:7
                trace: tick 100""", text(beginning));
    }

    @Test
    void anInjectionThatNeverStruckIsNoPassAndTellsHowCloseItCame() {
        Scripts script = new Scripts()
                .inject(when(step("REACHING"), term(POSITION, Relation.AT_LEAST, 1800)), new Fault.Freeze())
                .becomes("draws back", when(step("DRAWING_BACK")), within(1500), BEGIN);

        Judgement judgement = judge(
                script,
                new SyntheticTrace(400)
                        .step(20, "REACHING")
                        .real(POSITION, tick -> tick < 20 ? 1790 : Math.min(1713, 10 * tick))
                        .step(220, "DRAWING_BACK"));

        assertEquals(Verdict.PASS, judgement.findings().get(0).verdict());
        assertEquals(Verdict.INCONCLUSIVE, judgement.verdict());
        assertEquals(1, judgement.reasons().size());
        assertEquals(
                "the injection never struck (reach-blocked.fault.yaml:12); reach.position at least 180.0 mm never held;"
                        + " closest was 171.3 mm at +860.0 ms from arming",
                judgement.reasons().get(0));
        assertTrue(judgement.injections().get(0).firstTick().isEmpty());
    }

    @Test
    void anOverrideThatChangedNothingIsNoPass() {
        Scripts script = seesIt();

        Judgement judgement = judge(
                script,
                new SyntheticTrace(400)
                        .real(POSITION, tick -> 390)
                        .told(POSITION, tick -> 390)
                        .on(STRIKE, 0)
                        .answered(60, 2));

        assertEquals(Verdict.PASS, judgement.findings().get(0).verdict());
        assertEquals(Verdict.INCONCLUSIVE, judgement.verdict());
        assertTrue(judgement.reasons().get(0).contains("it changed nothing"));
    }

    @ParameterizedTest
    @CsvSource({
        "60, LASTED, INCONCLUSIVE",
        "60, WHILE, INCONCLUSIVE",
        "60, UNTIL, PASS",
        "61, LASTED, PASS",
        "61, WHILE, PASS",
        "70, LASTED, PASS"
    })
    void aFaultThatEndedByItselfBeforeTheAnswerIsNoPass(int offTick, EntryEnd end, Verdict verdict) {
        Judgement judgement = judge(seesIt(), blocked().off(offTick, 0, end).answered(60, 2));

        assertEquals(verdict, judgement.verdict());
        assertEquals(Optional.of(end), judgement.injections().get(0).ended());
        assertEquals(
                OptionalLong.of((offTick - STRIKE) * 5000L),
                judgement.injections().get(0).lastedMicros());
        assertEquals(
                OptionalLong.of(offTick - 1L), judgement.injections().get(0).lastTick());
    }

    @Test
    void aMissStaysAFailThoughTheFaultHadEnded() {
        Judgement judgement =
                judge(seesIt(), blocked().off(60, 0, EntryEnd.LASTED).answered(100, 2));

        assertEquals(Verdict.FAIL, judgement.verdict());
        assertTrue(judgement.reasons().get(0).contains("by its own clock"));
    }

    @Test
    void aSpikeIsShortByNature() {
        Scripts script = seesIt().inject(when(step("REACHING")), new Fault.Spike(100, OptionalLong.of(15_000)));

        assertEquals(
                Verdict.PASS,
                judge(script, blocked().off(43, 0, EntryEnd.LASTED).answered(60, 2))
                        .verdict());
    }

    /** The second fault has an answer of its own, whichever of the two is written first. */
    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void ofTwoFaultsNeitherMayEndBeforeItsAnswer(boolean secondIsWrittenFirst) {
        Anchor second = new Anchor.OfInjection(1, "injection 2");
        Scripts script = new Scripts().inject(when(step("REACHING")), new Fault.Freeze());
        script.inject(when(step("REACHING")), new Fault.Freeze(), OptionalLong.of(20_000));
        if (secondIsWrittenFirst) {
            script.answeredBy("sees the second", FS_01, within(250), second);
        }
        script.answeredBy("sees the first", FS_02, within(250), INJECTION);
        if (!secondIsWrittenFirst) {
            script.answeredBy("sees the second", FS_01, within(250), second);
        }
        SyntheticTrace tooShort =
                blocked().on(50, 1).answered(52, 2).off(54, 1, EntryEnd.LASTED).answered(70, 1);
        SyntheticTrace inTime =
                blocked().on(50, 1).answered(52, 2).answered(54, 1).off(55, 1, EntryEnd.LASTED);

        assertEquals(Verdict.INCONCLUSIVE, judge(script, tooShort).verdict());
        assertEquals(Verdict.PASS, judge(script, inTime).verdict());
    }

    /** What answers later, to what the first answer has brought about, does so when the fault is over. */
    @Test
    void theSecondAnswerToAFaultMayComeWhenThatIsOver() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .answeredBy("gives up", FS_01, within(250), after(0, "sees it"));

        assertEquals(
                Verdict.PASS,
                judge(
                                script,
                                blocked()
                                        .answered(60, 2)
                                        .off(61, 0, EntryEnd.LASTED)
                                        .answered(70, 1))
                        .verdict());
    }

    /** A count that none at all would meet asks for no answer, so that its silence is told. */
    @ParameterizedTest
    @CsvSource({"0, 2, INCONCLUSIVE", "1, 2, FAIL", "0, 0, PASS"})
    void aCountAsksForAnAnswerOnlyIfItIsNotMetWithoutOne(int least, int most, Verdict verdict) {
        Scripts script = new Scripts()
                .failSafe(FS_02)
                .becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION)
                .expect(at -> new Expectation.Times(
                        at,
                        "counted",
                        when(new Condition.Answers(at, FS_02)),
                        least,
                        OptionalInt.of(most),
                        new Stretch(INJECTION, Optional.of(within(500)), Optional.empty())));

        assertEquals(
                verdict,
                judge(script, blocked().answered(60, 1).step(60, "DRAWING_BACK"))
                        .verdict());
    }

    @Test
    void aRecoveryWithoutTheNamedFailSafeIsNoPass() {
        Scripts script =
                new Scripts().failSafe(FS_02).becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION);

        Judgement byAnother = judge(script, blocked().answered(60, 1).step(60, "DRAWING_BACK"));
        Judgement byIt = judge(script, blocked().answered(60, 2).step(60, "DRAWING_BACK"));

        assertEquals(Verdict.INCONCLUSIVE, byAnother.verdict());
        assertEquals(
                List.of("recovery was reached by another road: FS-02 was not seen to answer"), byAnother.reasons());
        assertEquals(Verdict.PASS, byIt.verdict());
    }

    @Test
    void aRestartFails() {
        Judgement judgement = judge(seesIt(), blocked().answered(60, 2).restartsAfter(120));

        assertEquals(Verdict.FAIL, judgement.verdict());
        assertEquals(
                List.of(
                        "the controller restarted (brown-out) after +600.0 ms from arming; the script does not expect it"),
                judgement.reasons());
    }

    @Test
    void aGuardThatTripsIsAnErrorThatNamesIt() {
        Judgement judgement = judge(seesIt(), blocked().guard(70, 0, 4053));

        assertEquals(Verdict.ERROR, judgement.verdict());
        assertEquals(
                List.of(
                        "guard reach travel tripped: reach.position was really 405.3 mm, at +350.0 ms from arming; the rig"
                                + " stopped"),
                judgement.reasons());
        assertEquals(Verdict.INCONCLUSIVE, judgement.findings().get(0).verdict());
    }

    @Test
    void aGuardWhoseEventsWereLostIsStillAnError() {
        SyntheticTrace trace = blocked().answered(60, 2).guard(200, 0, 4053);

        Judgement judgement = judge(seesIt(), trace.loseEvent(4).loseEvent(5));

        assertEquals(Verdict.ERROR, judgement.verdict());
    }

    @Test
    void aLeaseThatRanOutIsAnError() {
        Judgement judgement = judge(
                seesIt(),
                blocked().answered(60, 2).event(300, EventKind.LEASE, 0, 0).stop(300, StopReason.LEASE));

        assertEquals(Verdict.ERROR, judgement.verdict());
        assertTrue(judgement.reasons().get(0).startsWith("the lease ran out"));
    }

    @Test
    void whatTheRigDoesWhileItIsLetGoIsNotJudged() {
        Scripts script = seesIt().never(when(step("GIVEN_UP")));

        Judgement judgement = judge(
                script, blocked().answered(60, 2).stop(395, StopReason.LET_GO).step(395, "GIVEN_UP"));

        assertEquals(Verdict.PASS, judgement.verdict());
    }

    @Test
    void theHeadlineIsTheLeastMargin() {
        Scripts script = seesIt().becomes("draws back", when(step("DRAWING_BACK")), within(150), INJECTION);

        Judgement judgement = judge(script, blocked().answered(70, 2).step(62, "DRAWING_BACK"));

        assertEquals(OptionalLong.of(150_000 - 22 * 5000), judgement.marginMicros());
    }

    @Test
    void theSameTraceGivesTheSameJudgement() {
        Scripts script = seesIt().becomes("draws back", when(step("DRAWING_BACK")), within(150), INJECTION)
                .always(when(term(VOLTAGE, Relation.ABOVE, 700)));
        SyntheticTrace trace =
                blocked().answered(60, 2).step(62, "DRAWING_BACK").loseTicks(100, 110);

        assertEquals(judge(script, trace), judge(script, trace));
    }
}
