package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
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

import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.wire.EntryEnd;

/** What is missing makes a verdict inconclusive where it decides, and only there. Ticks are 5 ms apart. */
class GapTests {
    private static final int STRIKE = 40;

    private static SyntheticTrace blocked() {
        return new SyntheticTrace(200)
                .real(POSITION, tick -> 10 * tick)
                .told(POSITION, tick -> 390)
                .on(STRIKE, 0);
    }

    private static Judgement judge(Scripts script, SyntheticTrace trace) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(300));
    }

    private static Scripts seesIt() {
        return new Scripts().answeredBy("sees it", FS_02, within(250), INJECTION);
    }

    private static Scripts alwaysAbove7Volts() {
        return new Scripts().always(when(term(VOLTAGE, Relation.ABOVE, 700))).end(700, INJECTION);
    }

    @Test
    void aLostRecordHidesAViolation() {
        Judgement judgement = judge(alwaysAbove7Volts(), blocked().loseTicks(100, 101));

        assertEquals(Verdict.INCONCLUSIVE, judgement.verdict());
        assertEquals(
                "not known: records of ticks 100 to 101 are missing",
                judgement.findings().get(0).facts().get(1).text());
    }

    @Test
    void aViolationThatWasSeenSettlesItWhateverIsLost() {
        assertEquals(
                Verdict.FAIL,
                judge(
                                alwaysAbove7Volts(),
                                blocked().loseTicks(100, 101).real(VOLTAGE, tick -> tick == 150 ? 700 : 1200))
                        .verdict());
    }

    @Test
    void aLostRecordBeforeTheBeginningIsOverHidesNothing() {
        Scripts script = alwaysAbove7Volts().waitFor(when(step("REACHING")), 2000);
        SyntheticTrace trace = new SyntheticTrace(200)
                .step(20, "REACHING")
                .stageDone(20, 0)
                .told(POSITION, tick -> 390)
                .on(STRIKE, 1)
                .loseTicks(5, 10);

        assertEquals(Verdict.PASS, judge(script, trace).verdict());
    }

    @Test
    void aLostPartOfARecordIsAGapOfItsChannelsOnly() {
        Scripts ofPosition = new Scripts().always(when(term(POSITION, Relation.BELOW, 4000)));

        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(alwaysAbove7Volts(), blocked().split(2).losePart(100)).verdict());
        assertEquals(
                Verdict.PASS,
                judge(ofPosition, blocked().split(2).losePart(100)).verdict());
    }

    @Test
    void stepsAreKnownFromEventsWhereRecordsAreLost() {
        Scripts script = new Scripts()
                .becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION)
                .never(when(step("GIVEN_UP")));

        SyntheticTrace trace =
                blocked().step(60, "DRAWING_BACK").step(61, "REACHING").loseTicks(50, 70);

        assertEquals(Verdict.PASS, judge(script, trace).verdict());
    }

    @Test
    void aStepIsKnownFromRecordsWhereItsEventIsLost() {
        Scripts script = new Scripts().becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION);

        assertEquals(
                Verdict.PASS,
                judge(script, blocked().step(60, "DRAWING_BACK").loseEvent(2)).verdict());
    }

    @Test
    void aStepWhoseEventAndRecordsAreLostMayHaveBeen() {
        Scripts script = new Scripts().becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION);
        SyntheticTrace trace = blocked()
                .step(60, "DRAWING_BACK")
                .step(61, "REACHING")
                .loseTicks(60, 60)
                .loseEvent(2)
                .loseEvent(3);

        assertEquals(Verdict.INCONCLUSIVE, judge(script, trace).verdict());
    }

    @Test
    void aLostEventMayHaveBeenTheAnswer() {
        Judgement judgement = judge(seesIt(), blocked().answered(60, 2).loseEvent(2));

        assertEquals(Verdict.INCONCLUSIVE, judgement.verdict());
        assertEquals(
                "not known: events of tick 60 may be missing",
                judgement.findings().get(0).facts().get(1).text());
    }

    @Test
    void anEventLostBehindTheDeadlineHidesNoAnswer() {
        assertEquals(
                Verdict.FAIL,
                judge(seesIt(), blocked().step(150, "DRAWING_BACK").loseEvent(2))
                        .verdict());
    }

    @Test
    void anAnswerInTimeSettlesItThoughAnEarlierOneMayBeHidden() {
        // The hidden one is the first answer, the seen one says that it is the second.
        SyntheticTrace trace = blocked().answered(50, 2).answered(60, 2).loseEvent(2);

        assertEquals(Verdict.PASS, judge(seesIt(), trace).verdict());
    }

    @Test
    void anAnswerThatMayHaveComeTooEarlyIsNoPass() {
        Scripts script = new Scripts().answeredBy("sees it", FS_02, within(80, 250), INJECTION);

        // The second report says by its count that the lost event of tick 50 was the first.
        assertEquals(
                Verdict.FAIL,
                judge(script, blocked().answered(50, 2).answered(60, 2).loseEvent(2))
                        .verdict());
        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(
                                script,
                                blocked()
                                        .answered(50, 2)
                                        .answered(60, 2)
                                        .loseEvent(2)
                                        .loseTicks(50, 58))
                        .verdict());
        // A lost event that cannot have been this fail-safe's report, since the seen one is its first.
        assertEquals(
                Verdict.PASS,
                judge(script, blocked().answered(50, 1).answered(60, 2).loseEvent(2))
                        .verdict());
    }

    @Test
    void anotherAnswerMayBeHiddenBeforeIt() {
        Scripts script = new Scripts().answeredByNoOther("sees it", FS_02, within(250));

        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(script, blocked().answered(50, 1).answered(60, 2).loseEvent(2))
                        .verdict());
    }

    @Test
    void anotherAnswerMayBeHiddenInTheTickThatAStretchEndsWith() {
        Stretch untilItSeesIt = new Stretch(INJECTION, Optional.empty(), Optional.of(after(0, "sees it")));
        Scripts silent =
                seesIt().expect(at -> new Expectation.MustNotFire(at, "silent", FS_01, Optional.of(untilItSeesIt)));
        Scripts counted = seesIt().expect(at -> new Expectation.Times(
                at, "counted", when(new Condition.Answers(at, FS_01)), 1, OptionalInt.of(1), untilItSeesIt));

        // Of the same tick, but by its number before the answer: it counts.
        assertEquals(
                Verdict.FAIL,
                judge(silent, blocked().answered(60, 1).answered(60, 2)).verdict());
        assertEquals(
                Verdict.PASS,
                judge(counted, blocked().answered(60, 1).answered(60, 2)).verdict());
        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(silent, blocked().answered(60, 1).answered(60, 2).loseEvent(2))
                        .verdict());
        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(counted, blocked().answered(60, 1).answered(60, 2).loseEvent(2))
                        .verdict());
    }

    @Test
    void aFailSafeThatMustNotFireMayHaveFiredUnseen() {
        Scripts script = new Scripts().mustNotFire(FS_01);

        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(script, blocked().step(100, "DRAWING_BACK").loseEvent(2)).verdict());
    }

    @Test
    void aStrikeWhoseEventIsLostIsKnownFromTheRecords() {
        assertEquals(
                Verdict.PASS,
                judge(seesIt(), blocked().answered(90, 2).loseEvent(1)).verdict());
    }

    @Test
    void aStrikeThatIsNotKnownToTheTickSettlesNothing() {
        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(seesIt(), blocked().answered(60, 2).loseEvent(1).loseTicks(40, 41))
                        .verdict());
    }

    @Test
    void anOverrideThatMayHaveEndedUnseenIsNoPass() {
        SyntheticTrace ends =
                blocked().off(58, 0, EntryEnd.LASTED).answered(60, 2).loseEvent(2);

        assertEquals(Verdict.INCONCLUSIVE, judge(seesIt(), ends).verdict());
    }

    @ParameterizedTest
    @CsvSource({"701, PASS", "700, FAIL"})
    void aPeakBetweenRecordsIsNotLost(int lowest, Verdict verdict) {
        SyntheticTrace trace = blocked().period(5).real(VOLTAGE, tick -> tick == 102 ? lowest : 1200);

        assertEquals(verdict, judge(alwaysAbove7Volts(), trace).verdict());
    }

    @Test
    void aConditionThatComesAboutBetweenRecordsIsSeen() {
        Scripts script =
                new Scripts().becomes("eases off", when(term(CURRENT, Relation.BELOW, 100)), within(250), INJECTION);

        SyntheticTrace trace = blocked().period(5).real(CURRENT, tick -> tick == 62 ? 99 : 500);

        Judgement judgement = judge(script, trace);
        assertEquals(Verdict.PASS, judgement.verdict());
        // It was some tick of 60 to 63; the margin counts from the latest that the last of these can have been.
        assertEquals(90 * 5000 - (64 * 5000 - 1), judgement.marginMicros().orElseThrow());
    }

    @Test
    void aConditionThatComesAboutAroundTheDeadlineBetweenRecordsSettlesNothing() {
        Scripts script =
                new Scripts().becomes("eases off", when(term(CURRENT, Relation.BELOW, 100)), within(260), INJECTION);

        SyntheticTrace trace = blocked().period(5).real(CURRENT, tick -> tick == 92 ? 99 : 500);

        assertEquals(Verdict.INCONCLUSIVE, judge(script, trace).verdict());
    }
}
