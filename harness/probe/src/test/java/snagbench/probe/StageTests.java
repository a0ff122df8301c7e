package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Collections;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.Record;
import snagbench.wire.TermRole;

/** The beginning of a program: commands and waits, one after the other. Ticks are counted from arming. */
class StageTests {
    private static final int READY = 1;
    private static final int GOING = 2;

    private final TestRig rig = new TestRig();
    private int zero;

    @BeforeEach
    void begin() {
        rig.real(rig.step, READY);
        rig.begin();
    }

    private void arm() {
        rig.arm();
        zero = rig.tick;
    }

    @Test
    void aCommandIsToldForOneTickAndIsDoneWithIt() {
        rig.load(Programs.send(0, -1, rig.start, 1));
        arm();
        assertEquals(0, rig.told(rig.start));
        rig.tick();
        assertEquals(1, rig.told(rig.start));
        rig.tick();
        assertEquals(0, rig.told(rig.start));
        assertEquals(Arrays.asList("1:0:0"), rig.events(EventKind.STAGE_DONE, zero));
    }

    @Test
    void aStageIsLookedAtFromTheTickAfterTheOneBeforeItWasDone() {
        rig.load(
                Programs.send(0, -1, rig.start, 1),
                Programs.waitFor(1, 0, 0),
                Programs.when(1, rig.step, Comparison.IS, GOING),
                Programs.send(2, 1, rig.start, 2),
                Programs.waitFor(3, 2, 0),
                Programs.when(3, rig.step, Comparison.IS, GOING));
        arm();
        rig.real(rig.step, GOING);
        rig.ticks(5);
        assertEquals(Arrays.asList("1:0:0", "2:1:0", "4:2:0", "5:3:0"), rig.events(EventKind.STAGE_DONE, zero));
        assertEquals(Arrays.asList("1:0:1", "4:2:1"), rig.events(EventKind.ENTRY_ON, zero));
    }

    @Test
    void anInjectionIsLookedAtFromTheTickAfterItsStageWasDone() {
        rig.load(
                Programs.waitFor(0, -1, 0),
                Programs.when(0, rig.step, Comparison.IS, GOING),
                Programs.after(0, Programs.entry(1, EntryKind.STUCK_AT, rig.position, 77)),
                Programs.timing(1, 0, 0, 1, 0),
                Programs.when(1, rig.trigger, Comparison.IS, 1));
        arm();
        rig.real(rig.trigger, 1);
        rig.ticks(3);
        rig.real(rig.step, GOING);
        rig.ticks(3);
        assertEquals(Arrays.asList("4:0:0"), rig.events(EventKind.STAGE_DONE, zero));
        assertEquals(Arrays.asList("6:1:1"), rig.events(EventKind.ENTRY_ON, zero));
    }

    @Test
    void aWaitThatHoldsAtItsLimitIsInTime() {
        rig.load(Programs.waitFor(0, -1, 3000), Programs.when(0, rig.step, Comparison.IS, GOING));
        arm();
        rig.tickAfter(1000);
        rig.real(rig.step, GOING);
        rig.tickAfter(2000);
        assertEquals(Arrays.asList("2:0:0"), rig.events(EventKind.STAGE_DONE, zero));
        assertEquals(Collections.emptyList(), rig.events(EventKind.STAGE_TIMED_OUT, zero));
    }

    @Test
    void aWaitThatHoldsPastItsLimitIsLate() {
        rig.load(Programs.waitFor(0, -1, 3000), Programs.when(0, rig.step, Comparison.IS, GOING));
        arm();
        rig.tickAfter(1000);
        rig.real(rig.step, GOING);
        rig.tickAfter(2001);
        assertEquals(Collections.emptyList(), rig.events(EventKind.STAGE_DONE, zero));
        assertEquals(Arrays.asList("2:0:0"), rig.events(EventKind.STAGE_TIMED_OUT, zero));
        assertEquals(Record.PROGRAM_ENDED, rig.record().flags & Record.PROGRAM_ENDED);
    }

    @Test
    void aLimitCountsFromTheTickInWhichTheStageBeforeWasDone() {
        rig.load(
                Programs.waitFor(0, -1, 0),
                Programs.when(0, rig.step, Comparison.IS, GOING),
                Programs.waitFor(1, 0, 2 * TestRig.TICK),
                Programs.when(1, rig.trigger, Comparison.IS, 1));
        arm();
        rig.ticks(10);
        rig.real(rig.step, GOING);
        rig.ticks(3);
        assertEquals(Collections.emptyList(), rig.events(EventKind.STAGE_TIMED_OUT, zero));
        rig.tick();
        assertEquals(Arrays.asList("14:1:0"), rig.events(EventKind.STAGE_TIMED_OUT, zero));
    }

    @Test
    void afterATimeOutNothingStrikesAnyMoreButWhatIsActiveMayEnd() {
        rig.load(
                Programs.waitFor(0, -1, 2 * TestRig.TICK),
                Programs.when(0, rig.step, Comparison.IS, GOING),
                Programs.entry(1, EntryKind.STUCK_AT, rig.position, 77),
                Programs.term(1, TermRole.UNTIL, rig.trigger, Comparison.IS, 1),
                Programs.entry(2, EntryKind.STUCK_AT, rig.current, 5),
                Programs.when(2, rig.trigger, Comparison.IS, 0),
                Programs.timing(2, 3 * TestRig.TICK, 0, 1, 1));
        arm();
        rig.ticks(6);
        assertEquals(Arrays.asList("3:0:0"), rig.events(EventKind.STAGE_TIMED_OUT, zero));
        assertEquals(Arrays.asList("1:1:1"), rig.events(EventKind.ENTRY_ON, zero));
        assertEquals(77, rig.told(rig.position));
        rig.real(rig.trigger, 1);
        rig.ticks(2);
        assertEquals(0, rig.told(rig.position));
        assertEquals(1, rig.events(EventKind.ENTRY_OFF, zero).size());
    }

    @Test
    void whatMustComeAboutAnewIsNoOccasionWhereItHeldAlready() {
        rig.load(
                Programs.waitFor(0, -1, 0),
                Programs.when(0, rig.trigger, Comparison.IS, 1),
                Programs.flagged(Entry.ANEW, Programs.waitFor(1, 0, 0)),
                Programs.when(1, rig.step, Comparison.IS, READY),
                Programs.flagged(Entry.ANEW, Programs.waitFor(2, -1, 0)),
                Programs.when(2, rig.step, Comparison.IS, READY));
        arm();
        rig.ticks(2);
        rig.real(rig.trigger, 1);
        rig.ticks(3);
        assertEquals(Arrays.asList("3:0:0"), rig.events(EventKind.STAGE_DONE, zero));
        rig.real(rig.step, GOING);
        rig.ticks(2);
        rig.real(rig.step, READY);
        rig.ticks(2);
        assertEquals(Arrays.asList("3:0:0", "8:1:0", "8:2:0"), rig.events(EventKind.STAGE_DONE, zero));
    }

    @Test
    void whatComesAboutAnewInTheFirstTickThatCountsIsAnOccasion() {
        rig.load(
                Programs.waitFor(0, -1, 0),
                Programs.when(0, rig.trigger, Comparison.IS, 1),
                Programs.flagged(Entry.ANEW, Programs.waitFor(1, 0, 0)),
                Programs.when(1, rig.step, Comparison.IS, GOING),
                Programs.flagged(Entry.ANEW | Entry.SAME_TICK, Programs.waitFor(2, 0, 0)),
                Programs.when(2, rig.current, Comparison.ABOVE, 5));
        arm();
        rig.ticks(2);
        rig.real(rig.trigger, 1);
        rig.real(rig.current, 6);
        rig.tick();
        rig.real(rig.step, GOING);
        rig.ticks(3);
        assertEquals(Arrays.asList("3:0:0", "3:2:0", "4:1:0"), rig.events(EventKind.STAGE_DONE, zero));
    }

    @Test
    void anOverrideAsAStageStrikesOnAndMayLead() {
        rig.load(
                Programs.flagged(Entry.STAGE, Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5)),
                Programs.timing(0, 0, 0, 1, 0),
                Programs.when(0, rig.trigger, Comparison.IS, 1),
                Programs.term(0, TermRole.UNTIL, rig.trigger, Comparison.IS, 0),
                Programs.follower(1, 0, EntryKind.STUCK_AT, rig.position, 77, 0, 0),
                Programs.flagged(Entry.SAME_TICK, Programs.waitFor(2, 0, 0)),
                Programs.answered(2, TermRole.WHEN, 1));
        arm();
        rig.real(rig.trigger, 1);
        rig.tick();
        rig.answering.add(rig.fs1);
        rig.tick();
        rig.real(rig.trigger, 0);
        rig.ticks(2);
        rig.real(rig.trigger, 1);
        rig.ticks(2);
        assertEquals(Arrays.asList("2:0:1", "2:1:1", "6:0:2", "6:1:2"), rig.events(EventKind.ENTRY_ON, zero));
        assertEquals(Arrays.asList("2:0:0", "2:2:0"), rig.events(EventKind.STAGE_DONE, zero));
    }

    @Test
    void aTimeOutTakesBackWhatStruckInTheSameTick() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5),
                Programs.when(0, rig.trigger, Comparison.IS, 1),
                Programs.waitFor(1, -1, 2 * TestRig.TICK),
                Programs.when(1, rig.step, Comparison.IS, GOING));
        arm();
        rig.ticks(2);
        rig.real(rig.trigger, 1);
        rig.ticks(2);
        assertEquals(Arrays.asList("3:1:0"), rig.events(EventKind.STAGE_TIMED_OUT, zero));
        assertEquals(Collections.emptyList(), rig.events(EventKind.ENTRY_ON, zero));
    }
}
