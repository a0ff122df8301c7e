package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Collections;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import snagbench.wire.Comparison;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.Term;
import snagbench.wire.TermRole;

/** When an entry strikes. Ticks are counted from arming. */
class StrikeTests {
    private final TestRig rig = new TestRig();

    @BeforeEach
    void begin() {
        rig.begin();
    }

    private void arm() {
        rig.arm();
        zero = rig.tick;
    }

    private int zero;

    private void triggers(int... values) {
        for (int value : values) {
            rig.real(rig.trigger, value);
            rig.tick();
        }
    }

    private void assertOn(String... events) {
        assertEquals(Arrays.asList(events), rig.events(EventKind.ENTRY_ON, zero));
    }

    @Test
    void actsFromTheTickAfterTheOneInWhichItsConditionHolds() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.when(0, rig.trigger, Comparison.AT_LEAST, 5));
        arm();
        triggers(4, 5);
        assertEquals(0, rig.told(rig.position));
        assertEquals(0, rig.record().active);
        triggers(0);
        assertEquals(77, rig.told(rig.position));
        assertEquals(1, rig.record().active);
        assertOn("3:0:1");
    }

    @Test
    void anEntryWithoutConditionStrikesAtTheEndOfTickZero() {
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77));
        arm();
        assertEquals(0, rig.told(rig.position));
        rig.tick();
        assertEquals(77, rig.told(rig.position));
        assertOn("1:0:1");
    }

    @Test
    void aConditionThatHoldsFromTheStartIsAnOccasion() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.when(0, rig.trigger, Comparison.IS, 0));
        arm();
        triggers(0, 0);
        assertOn("1:0:1");
    }

    @Test
    void allTermsMustHoldTogether() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.when(0, rig.trigger, Comparison.ABOVE, 1),
                Programs.when(0, rig.current, Comparison.BELOW, 10));
        rig.real(rig.current, 10);
        arm();
        triggers(2, 3);
        rig.real(rig.current, 9);
        triggers(1, 2, 2);
        assertOn("5:0:1");
    }

    @Test
    void strikesOnceUnlessToldOtherwise() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 1, 0),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        arm();
        triggers(1, 0, 1, 0, 1, 0);
        assertOn("2:0:1");
    }

    @Test
    void strikesAtEachOccasionUpToItsTimes() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 1, 0),
                Programs.timing(0, 0, 0, 1, 2),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        arm();
        triggers(1, 0, 1, 0, 1, 0);
        assertOn("2:0:1", "4:0:2");
    }

    @Test
    void strikesWithoutLimitWhereTimesIsZero() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 1, 0),
                Programs.timing(0, 0, 0, 1, 0),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        arm();
        triggers(1, 0, 1, 0, 1, 0);
        assertOn("2:0:1", "4:0:2", "6:0:3");
    }

    @Test
    void anOccasionIsTheRisingEdgeOfTheWholeCondition() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 1, 0),
                Programs.timing(0, 0, 0, 1, 0),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        arm();
        triggers(1, 1, 1, 1, 0, 1, 1);
        assertOn("2:0:1", "7:0:2");
    }

    @Test
    void waitsForItsNthOccasionAndTakesTheLaterOnesToo() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 1, 0),
                Programs.timing(0, 0, 0, 3, 2),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        arm();
        triggers(1, 0, 1, 0, 1, 0, 1, 0, 1, 0);
        assertOn("6:0:1", "8:0:2");
    }

    @Test
    void anOccasionWhileActiveCountsButDoesNotStrike() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 3 * TestRig.TICK, 0),
                Programs.timing(0, 0, 0, 1, 0),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        arm();
        // On in ticks 2, 3 and 4; the occasion at the end of tick 4 still falls into it.
        triggers(1, 0, 0, 1, 0, 1, 0);
        assertOn("2:0:1", "7:0:2");
    }

    @Test
    void forCountsFromTheFirstTickInWhichTheConditionHeld() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.timing(0, 2 * TestRig.TICK, 0, 1, 1),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        arm();
        triggers(1, 1, 0, 1, 1, 1, 1);
        // Held in 1 and 2 only, then from 4 on: 10 ms are over at 6.
        assertOn("7:0:1");
    }

    @Test
    void forIsMeasuredOnTheClockAndNotInTicks() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.timing(0, 1000, 0, 1, 1),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        arm();
        rig.real(rig.trigger, 1);
        rig.tickAfter(400);
        rig.tickAfter(999);
        rig.tickAfter(1);
        rig.tickAfter(1);
        assertOn("4:0:1");
    }

    @Test
    void delayLatchesOnceItsOccasionHasCome() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.timing(0, 0, 2 * TestRig.TICK, 1, 1),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        arm();
        triggers(1, 0, 0, 0);
        assertOn("4:0:1");
    }

    @Test
    void furtherOccasionsDoNotStartTheDelayAnew() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.timing(0, 0, 3 * TestRig.TICK, 1, 1),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        arm();
        triggers(1, 0, 1, 0, 0, 0);
        assertOn("5:0:1");
    }

    @Test
    void comparesEachWay() {
        Comparison[] comparisons = {
            Comparison.AT_LEAST,
            Comparison.ABOVE,
            Comparison.AT_MOST,
            Comparison.BELOW,
            Comparison.IS,
            Comparison.IS_NOT
        };
        // For the readings -1, 0 and 1 against 0.
        String[] strikes = {"011", "001", "110", "100", "010", "101"};
        for (int i = 0; i < comparisons.length; i++) {
            for (int reading = -1; reading <= 1; reading++) {
                rig.load(
                        Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                        Programs.when(0, rig.trigger, comparisons[i], 0));
                rig.real(rig.trigger, reading);
                arm();
                rig.tick();
                boolean strikesThen = strikes[i].charAt(reading + 1) == '1';
                assertEquals(strikesThen ? 77 : 0, rig.told(rig.position), comparisons[i] + " of " + reading);
                rig.letGo();
                rig.keep();
            }
        }
    }

    @Test
    void anEdgeComparesWithTheTickBefore() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 1, 0),
                Programs.timing(0, 0, 0, 1, 0),
                Programs.when(0, rig.trigger, Comparison.RISES_TO, 5));
        arm();
        triggers(4, 5, 6, 3, 9, 9);
        assertOn("3:0:1", "6:0:2");
    }

    @Test
    void anEdgeDownwardsComparesWithTheTickBefore() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 1, 0),
                Programs.timing(0, 0, 0, 1, 0),
                Programs.when(0, rig.trigger, Comparison.FALLS_TO, -5));
        arm();
        triggers(-4, -5, -6, -3, -9, -9);
        assertOn("3:0:1", "6:0:2");
    }

    @Test
    void nothingFromBeforeArmingMakesAnEdge() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.when(0, rig.trigger, Comparison.RISES_TO, 5));
        rig.real(rig.trigger, 0);
        rig.tick();
        rig.real(rig.trigger, 9);
        arm();
        triggers(9, 9);
        assertOn();
    }

    @Test
    void nothingFromBeforeArmingCountsInAWindow() {
        Term fast = new Term(0, TermRole.WHEN.code(), rig.trigger.index(), 0, Comparison.FASTER_THAN.code(), 10, 3);
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77), fast);
        rig.real(rig.trigger, 50);
        rig.tick();
        rig.real(rig.trigger, 0);
        arm();
        // From 0 in tick 1 to 11 in tick 4 is more than 10 over three ticks.
        triggers(0, 0, 10, 11, 12);
        assertOn("5:0:1");
    }

    @Test
    void slowerThanNeedsAWholeWindow() {
        Term slow = new Term(0, TermRole.WHEN.code(), rig.trigger.index(), 0, Comparison.SLOWER_THAN.code(), 2, 4);
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77), slow);
        arm();
        triggers(0, 0, 0, 1, 1);
        assertOn("5:0:1");
    }

    @Test
    void aFailSafeThatAnswersIsSeenInItsTickOnly() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 1, 0),
                Programs.timing(0, 0, 0, 1, 0),
                Programs.answered(0, TermRole.WHEN, 2));
        arm();
        rig.answering.add(rig.fs1);
        rig.tick();
        rig.answering.add(rig.fs2);
        rig.tick();
        rig.ticks(2);
        assertOn("3:0:1");
        assertEquals(Arrays.asList("1:1:1", "2:2:1"), rig.events(EventKind.ANSWERED, zero));
    }

    @Test
    void readsWhatWasToldWhereTheTermSaysSo() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.trigger, 50),
                Programs.entry(1, EntryKind.STUCK_AT, rig.position, 77),
                Programs.ofTold(Programs.when(1, rig.trigger, Comparison.IS, 50)),
                Programs.entry(2, EntryKind.STUCK_AT, rig.current, 88),
                Programs.when(2, rig.trigger, Comparison.IS, 50));
        arm();
        rig.ticks(4);
        assertOn("1:0:1", "2:1:1");
    }

    @Test
    void aChannelThatIsNotReadKeepsItsLastValue() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.timing(0, 2 * TestRig.TICK, 0, 1, 1),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        arm();
        triggers(1);
        rig.leftOut[rig.trigger.index()] = true;
        triggers(0, 0, 0);
        assertOn("4:0:1");
    }

    @Test
    void theAnswersOfTheProgramBeforeAreForgotten() {
        rig.answering.add(rig.fs2);
        rig.tick();
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.when(0, rig.description.lastAnswer(), Comparison.IS, 2));
        arm();
        triggers(0);
        assertOn();
        assertEquals(0, rig.record().told(rig.description.lastAnswer().index()));
        assertEquals(0, rig.record().told(rig.description.answerCount().index()));
        assertEquals(Collections.emptyList(), rig.events(EventKind.ANSWERED, zero));
    }
}
