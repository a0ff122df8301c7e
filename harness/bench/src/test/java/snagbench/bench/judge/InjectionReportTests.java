package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.freezes;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.VOLTAGE;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Fault;
import snagbench.bench.script.Trigger;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.wire.EntryEnd;
import snagbench.wire.EventKind;

/** What is told of injections: when they struck, how long they lasted, what they changed. Ticks are 5 ms apart. */
class InjectionReportTests {
    private static final Anchor SECOND = new Anchor.OfInjection(1, "injection 2");

    private static SyntheticTrace trace(int ticks) {
        return new SyntheticTrace(ticks).told(POSITION, tick -> 1).told(CURRENT, tick -> 1);
    }

    private static Judgement judge(Scripts script, SyntheticTrace trace) {
        return judge(script, trace, 100);
    }

    private static Judgement judge(Scripts script, SyntheticTrace trace, long settlingMillis) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(settlingMillis));
    }

    private static Scripts two() {
        return new Scripts()
                .inject(when(step("REACHING")), new Fault.Freeze())
                .inject(when(step("REACHING")), new Fault.Freeze());
    }

    private static Scripts limited(Scripts script) {
        return script.always(when(term(VOLTAGE, Relation.ABOVE, 700)));
    }

    private static InjectionFacts first(Judgement judgement) {
        return judgement.injections().get(0);
    }

    @Test
    void ofSeveralStrikesTheNewestTellsHowLongItLasted() {
        SyntheticTrace trace = trace(200)
                .on(40, 0)
                .off(50, 0, EntryEnd.WHILE)
                .event(60, EventKind.ENTRY_ON, 0, 2)
                .off(70, 0, EntryEnd.LASTED);

        InjectionFacts facts = first(judge(new Scripts().injectTimes(2), trace));

        assertEquals(OptionalLong.of(40), facts.firstTick());
        assertEquals(OptionalLong.of(200_000), facts.firstMicros());
        assertEquals(OptionalLong.of(69), facts.lastTick());
        assertEquals(OptionalLong.of(50_000), facts.lastedMicros());
        assertEquals(Optional.of(EntryEnd.LASTED), facts.ended());
        assertEquals(2, facts.strikes());
    }

    /** In tick 55 it was over, and in tick 60 it struck anew. */
    @ParameterizedTest
    @CsvSource({"49, PASS", "50, INCONCLUSIVE", "59, INCONCLUSIVE", "60, PASS", "69, PASS", "70, INCONCLUSIVE"})
    void theFaultIsThereOnlyWhileOneOfItsStrikesLasts(int answer, Verdict verdict) {
        Scripts script = new Scripts().injectTimes(2).answeredBy("sees it", FS_02, within(500), INJECTION);
        SyntheticTrace trace = trace(200).on(40, 0);
        // The answer comes behind what else happens in its tick.
        for (int tick = 41; tick <= 70; tick++) {
            if (tick == 50 || tick == 70) {
                trace.off(tick, 0, EntryEnd.LASTED);
            }
            if (tick == 60) {
                trace.event(tick, EventKind.ENTRY_ON, 0, 2);
            }
            if (tick == answer) {
                trace.answered(tick, 2);
            }
        }

        assertEquals(verdict, judge(script, trace).verdict());
    }

    @ParameterizedTest
    @CsvSource({"50, 60, 59, 100000, WHILE", "60, 50, 59, 100000, LASTED"})
    void ofSeveralOverridesTheLastThatEndsTellsHowLongItLasted(
            int firstOff, int secondOff, long last, long lasted, EntryEnd end) {
        Scripts script = new Scripts().inject(Trigger.at(when(step("REACHING"))), freezes(POSITION), freezes(CURRENT));
        SyntheticTrace trace =
                trace(200).on(40, 0).on(40, 1).off(firstOff, 0, EntryEnd.LASTED).off(secondOff, 1, EntryEnd.WHILE);

        InjectionFacts facts = first(judge(script, trace));

        assertEquals(OptionalLong.of(last), facts.lastTick());
        assertEquals(OptionalLong.of(lasted), facts.lastedMicros());
        assertEquals(Optional.of(end), facts.ended());
    }

    @Test
    void anInjectionOfWhichOneOverrideIsStillOnHasNotEnded() {
        Scripts script = new Scripts().inject(Trigger.at(when(step("REACHING"))), freezes(POSITION), freezes(CURRENT));

        InjectionFacts facts =
                first(judge(script, trace(200).on(40, 0).on(40, 1).off(50, 0, EntryEnd.LASTED)));

        assertEquals(OptionalLong.of(199), facts.lastTick());
        assertEquals(OptionalLong.empty(), facts.lastedMicros());
        assertEquals(Optional.empty(), facts.ended());
    }

    @Test
    void whatIsReleasedInTheMiddleOfATickWasOnInIt() {
        assertEquals(
                OptionalLong.of(70),
                first(judge(new Scripts(), trace(200).on(40, 0).released(70, 0)))
                        .lastTick());
        assertEquals(
                OptionalLong.of(69),
                first(judge(new Scripts(), trace(200).on(40, 0).off(70, 0, EntryEnd.RELEASED)))
                        .lastTick());
    }

    @Test
    void whatIsOnToTheEndOfWhatIsLookedAtWasOnInItsLastTick() {
        Judgement judgement =
                Judge.judge(new Scripts().script(), trace(200).on(40, 0).trace().upTo(300_000), Scripts.rig(100));

        assertEquals(OptionalLong.of(60), first(judgement).lastTick());
    }

    @Test
    void theEndOfAnOverrideThatWasLostShowsInTheFirstRecordAlready() {
        SyntheticTrace trace =
                trace(200).on(3, 0).off(6, 0, EntryEnd.LASTED).loseEvent(2).loseTicks(0, 4);

        assertEquals(OptionalLong.of(5), first(judge(new Scripts(), trace)).lastTick());
    }

    @Test
    void anOverrideThatNoRecordShowsWasOnInTheTickInWhichItStruck() {
        SyntheticTrace trace =
                trace(200).on(40, 0).off(45, 0, EntryEnd.LASTED).loseEvent(2).loseTicks(38, 47);

        assertEquals(OptionalLong.of(40), first(judge(new Scripts(), trace)).lastTick());
    }

    @Test
    void aReadingThatDiffersInTheLastTickOnlyIsAChange() {
        SyntheticTrace trace = new SyntheticTrace(200)
                .told(POSITION, tick -> tick == 49 ? 1 : 0)
                .on(40, 0)
                .off(50, 0, EntryEnd.LASTED);

        assertTrue(first(judge(new Scripts(), trace)).changedAnything());
    }

    /** The first is over in tick 51 with the record of that tick; only the second, from tick 52 on, changes anything. */
    @ParameterizedTest
    @CsvSource({"1", "4"})
    void whatAnotherOverrideOfTheSameChannelChangesLaterIsNotItsDoing(int period) {
        SyntheticTrace trace = new SyntheticTrace(200)
                .period(period)
                .told(POSITION, tick -> tick < 52 ? 0 : 1)
                .on(40, 0)
                .off(51, 0, EntryEnd.LASTED)
                .on(52, 1);

        List<InjectionFacts> facts = judge(two(), trace).injections();

        assertFalse(facts.get(0).changedAnything());
        assertTrue(facts.get(1).changedAnything());
    }

    @Test
    void theLastRecordThatAnOverrideHasAShareInMayBeItsOnlyChange() {
        SyntheticTrace trace = new SyntheticTrace(200)
                .period(4)
                .told(POSITION, tick -> tick == 48 ? 1 : 0)
                .on(40, 0)
                .off(49, 0, EntryEnd.LASTED);

        assertTrue(first(judge(new Scripts(), trace)).changedAnything());
    }

    /** Between its two strikes another one forces the same channel. */
    @Test
    void whatAnotherOverrideChangesBetweenTwoStrikesIsNotItsDoing() {
        Scripts script = new Scripts().injectTimes(2).inject(when(step("REACHING")), new Fault.Freeze());
        SyntheticTrace trace = new SyntheticTrace(200)
                .told(POSITION, tick -> tick >= 50 && tick < 55 ? 1 : 0)
                .on(40, 0)
                .off(45, 0, EntryEnd.LASTED)
                .on(50, 1)
                .off(55, 1, EntryEnd.LASTED)
                .event(60, EventKind.ENTRY_ON, 0, 2)
                .off(65, 0, EntryEnd.LASTED);

        List<InjectionFacts> facts = judge(script, trace).injections();

        assertFalse(facts.get(0).changedAnything());
        assertTrue(facts.get(1).changedAnything());
    }

    @Test
    void namesTheChannelsOfAnInjectionThatChangedNothing() {
        Scripts script = new Scripts().inject(Trigger.at(when(step("REACHING"))), freezes(POSITION), freezes(CURRENT));

        Finding finding = judge(script, new SyntheticTrace(200).on(40, 0).on(40, 1))
                .findings()
                .get(0);

        assertEquals("""
                expected: the injection changes what the control code is told
                but was: it changed nothing that was seen: told and real were the same of reach.position and reach.current
                script: reach-blocked.fault.yaml:12
                trace: tick 40""", text(finding));
    }

    @Test
    void tellsWhenAnInjectionThatNeverStruckWouldHave() {
        Scripts plain = new Scripts().inject(Trigger.at(when(step("GIVEN_UP"))), freezes(POSITION));
        Scripts full = new Scripts()
                .inject(Trigger.at(when(step("REACHING"))), freezes(POSITION))
                .inject(new Trigger(INJECTION, when(step("GIVEN_UP")), 20_000, 30_000, 2, 1), freezes(POSITION));

        assertEquals(
                "the injection strikes when step GIVEN_UP",
                text(judge(plain, trace(200)).findings().get(0), "expected"));
        assertEquals(
                "injection 2 strikes when step GIVEN_UP for 20 ms for the 2nd time, 30 ms later after the injection",
                text(judge(full, trace(200).on(40, 0)).findings().get(0), "expected"));
    }

    @Test
    void anInjectionWithoutAConditionThatNeverStruckHasNothingToComeClose() {
        Scripts script = new Scripts()
                .inject(Trigger.at(when(step("REACHING"))), freezes(POSITION))
                .inject(
                        new Trigger(INJECTION, new Condition(Scripts.place(9), List.of()), 0, 2_000_000, 1, 1),
                        freezes(POSITION));

        Finding finding = judge(script, trace(200).on(40, 0)).findings().get(0);

        assertEquals(Verdict.INCONCLUSIVE, finding.verdict());
        assertEquals("""
                expected: injection 2 strikes, 2000 ms later after the injection
                but was: injection 2 never struck (reach-blocked.fault.yaml:12)
                script: reach-blocked.fault.yaml:12""", text(finding));
    }

    /** The answer is counted from the beginning, so that any of the two that were on may be what was answered. */
    @Test
    void anInjectionThatNeverStruckIsNotTheFaultThatWasThere() {
        Scripts script = two().answeredBy("sees it", FS_02, within(500), BEGIN);

        Judgement judgement =
                judge(script, trace(200).on(40, 0).off(50, 0, EntryEnd.LASTED).answered(60, 2));

        Finding finding = judgement.findings().get(judgement.findings().size() - 1);
        assertEquals(
                "the injection ended by its own clock before FS-02 answered: its last tick was 49, the answer came in tick 60",
                text(finding, "but was"));
        assertEquals("tick 60", text(finding, "trace"));
    }

    /** Records show it on from a tick on, though the event is lost. */
    @ParameterizedTest
    @CsvSource({"200", "41"})
    void theFirstRecordThatShowsAnOverrideTellsWhenItStruck(int ticks) {
        assertEquals(
                OptionalLong.of(40),
                first(judge(new Scripts(), trace(ticks).on(40, 0).loseEvent(1))).firstTick());
        assertEquals(
                OptionalLong.of(40),
                judge(two(), trace(ticks).on(40, 1).loseEvent(1))
                        .injections()
                        .get(1)
                        .firstTick());
    }

    @ParameterizedTest
    @CsvSource({"1, true, true", "3, false, true", "3, true, false", "0, true, false"})
    void whereItMayHaveStruckInLostRecordsBeforeItsFirstStrikeIsNotKnown(int times, boolean lost, boolean known) {
        SyntheticTrace trace = trace(200).on(40, 0).loseEvent(1);
        if (lost) {
            trace.loseTicks(20, 21);
        }

        Judgement judgement = judge(new Scripts().injectTimes(times), trace);

        assertEquals(
                known ? OptionalLong.of(40) : OptionalLong.empty(),
                first(judgement).firstTick());
        if (!known) {
            assertEquals(
                    "it is not known when the injection struck",
                    text(judgement.findings().get(0), "but was"));
        }
    }

    /** It struck behind tick 39, at 195 ms, so that the script did not end before 295 ms and a microsecond. */
    @ParameterizedTest
    @CsvSource({"58, FAIL", "59, FAIL", "60, INCONCLUSIVE"})
    void theScriptLastsAtLeastToItsSettlingTimeBehindTheEarliestStrike(int broken, Verdict verdict) {
        SyntheticTrace trace =
                trace(200).on(41, 0).loseEvent(1).loseTicks(40, 44).real(VOLTAGE, tick -> tick == broken ? 700 : 1200);

        assertEquals(
                verdict, judge(limited(new Scripts()), trace).findings().get(0).verdict());
    }

    @ParameterizedTest
    @CsvSource({"20, FAIL", "21, INCONCLUSIVE"})
    void whatWasOnInTheVeryFirstRecordMayHaveStruckAtArming(int broken, Verdict verdict) {
        SyntheticTrace trace =
                trace(200).on(5, 0).loseEvent(1).loseTicks(0, 9).real(VOLTAGE, tick -> tick == broken ? 700 : 1200);

        assertEquals(
                verdict, judge(limited(new Scripts()), trace).findings().get(0).verdict());
    }

    @ParameterizedTest
    @CsvSource({"20, FAIL", "21, INCONCLUSIVE"})
    void whatMayHaveStruckBeforeMayHaveDoneSoAtArming(int broken, Verdict verdict) {
        SyntheticTrace trace =
                trace(200).on(40, 0).loseEvent(1).loseTicks(10, 12).real(VOLTAGE, tick -> tick == broken ? 700 : 1200);

        assertEquals(
                verdict,
                judge(limited(new Scripts().injectTimes(3)), trace)
                        .findings()
                        .get(0)
                        .verdict());
    }

    /** It may strike behind the last tick at the earliest, so that the script lasts at least to there. */
    @ParameterizedTest
    @CsvSource({"0", "100"})
    void whatNeverStruckInAWholeTraceDidNotEndTheScriptInIt(long settlingMillis) {
        SyntheticTrace trace = trace(200).real(VOLTAGE, tick -> tick == 199 ? 700 : 1200);

        Judgement judgement = judge(limited(new Scripts()), trace, settlingMillis);

        assertEquals(Verdict.FAIL, judgement.findings().get(0).verdict());
    }

    @Test
    void whatMayHaveStruckUnseenIsNotSaidNeverToHave() {
        SyntheticTrace trace =
                trace(200).on(40, 0).off(42, 0, EntryEnd.LASTED).loseEvent(1).loseTicks(39, 43);

        assertEquals(
                "the injection was not seen to strike (reach-blocked.fault.yaml:12)",
                text(judge(new Scripts(), trace).findings().get(0), "but was"));
        assertEquals(
                "the injection never struck (reach-blocked.fault.yaml:12)",
                text(judge(new Scripts(), trace(200)).findings().get(0), "but was"));
    }

    /** What the second one waits for was missed, so that it cannot strike any more. */
    @Test
    void whatHangsOnAnInjectionThatCannotComeIsMissedForCertain() {
        Anchor missed = after(0, "draws back");
        Scripts cannot = new Scripts()
                .inject(Trigger.at(when(step("REACHING"))), freezes(POSITION))
                .inject(new Trigger(missed, when(step("REACHING")), 0, 0, 1, 1), freezes(POSITION))
                .becomes("draws back", when(step("DRAWING_BACK")), within(50), BEGIN)
                .answeredBy("sees it", FS_02, within(50), SECOND)
                .becomes("gives up", when(step("GIVEN_UP")), within(50), after(1, "sees it"));
        Scripts may = two().becomes("draws back", when(step("DRAWING_BACK")), within(50), BEGIN)
                .answeredBy("sees it", FS_02, within(50), SECOND)
                .becomes("gives up", when(step("GIVEN_UP")), within(50), after(1, "sees it"));

        assertEquals(
                "not judged: its anchor \"sees it\" was not met",
                text(judge(cannot, trace(200).on(40, 0)).findings().get(2), "but was"));
        assertEquals(
                "not judged: its anchor \"sees it\" was not seen to be met",
                text(judge(may, trace(200).on(40, 0)).findings().get(2), "but was"));
    }

    private static String text(Finding finding) {
        return finding.facts().stream()
                .map(fact -> fact.label() + ": " + fact.text())
                .collect(Collectors.joining("\n"));
    }

    private static String text(Finding finding, String label) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(label))
                .map(Fact::text)
                .collect(Collectors.joining("; "));
    }
}
