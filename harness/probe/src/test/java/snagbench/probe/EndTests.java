package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryEnd;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.TermRole;

/** When an entry ends, and which reason is told. Ticks are counted from arming. */
class EndTests {
    private static final int LASTED = EntryEnd.LASTED.code();
    private static final int UNTIL = EntryEnd.UNTIL.code();
    private static final int WHILE = EntryEnd.WHILE.code();

    private final TestRig rig = new TestRig();
    private int zero;

    @BeforeEach
    void begin() {
        rig.begin();
    }

    private void arm() {
        rig.arm();
        zero = rig.tick;
    }

    private void triggers(int... values) {
        for (int value : values) {
            rig.real(rig.trigger, value);
            rig.tick();
        }
    }

    private void assertOff(String... events) {
        assertEquals(Arrays.asList(events), rig.events(EventKind.ENTRY_OFF, zero));
    }

    @Test
    void lastsUntilTheFirstTickWhoseClockHasReachedIt() {
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 1000, 0));
        arm();
        rig.tickAfter(700);
        rig.tickAfter(999);
        assertEquals(77, rig.told(rig.position));
        rig.tickAfter(1);
        assertEquals(0, rig.told(rig.position));
        assertOff("3:0:" + LASTED);
    }

    @Test
    void isActiveForOneTickEvenIfItsTimeIsShorter() {
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 1, 0));
        arm();
        rig.tick();
        assertEquals(77, rig.told(rig.position));
        rig.tick();
        assertEquals(0, rig.told(rig.position));
        assertOff("2:0:" + LASTED);
    }

    @Test
    void aOneTickEntryEndsHoweverShortTheTick() {
        rig.load(Programs.entry(0, EntryKind.SPIKE, rig.position, 77, 0, Entry.ONE_TICK));
        arm();
        rig.tickAfter(1);
        assertEquals(77, rig.told(rig.position));
        rig.tickAfter(1);
        assertEquals(0, rig.told(rig.position));
        assertOff("2:0:" + LASTED);
    }

    @Test
    void untilEndsItWithTheTickAfter() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.term(0, TermRole.UNTIL, rig.trigger, Comparison.IS, 1));
        arm();
        triggers(0, 1);
        assertEquals(77, rig.told(rig.position));
        triggers(1);
        assertEquals(0, rig.told(rig.position));
        assertOff("3:0:" + UNTIL);
    }

    @Test
    void untilNeedsAllItsTerms() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.term(0, TermRole.UNTIL, rig.trigger, Comparison.IS, 1),
                Programs.answered(0, TermRole.UNTIL, 1));
        arm();
        triggers(0, 1);
        rig.answering.add(rig.fs1);
        triggers(0);
        rig.answering.add(rig.fs1);
        triggers(1, 1);
        assertOff("5:0:" + UNTIL);
    }

    @Test
    void whileEndsItWithTheFirstTermThatFails() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.term(0, TermRole.WHILE, rig.trigger, Comparison.IS, 1),
                Programs.term(0, TermRole.WHILE, rig.current, Comparison.BELOW, 10));
        arm();
        triggers(1, 1, 1);
        rig.real(rig.current, 10);
        triggers(1, 1);
        assertOff("5:0:" + WHILE);
    }

    @Test
    void anEntryStrikesThoughItsWhileFailsAndEndsAfterOneTick() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77),
                Programs.term(0, TermRole.WHILE, rig.trigger, Comparison.IS, 1));
        arm();
        triggers(0, 0);
        assertOff("2:0:" + WHILE);
    }

    @Test
    void untilAndWhileBeatLastsInTheSameTick() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 2 * TestRig.TICK, 0),
                Programs.term(0, TermRole.UNTIL, rig.trigger, Comparison.IS, 1),
                Programs.entry(1, EntryKind.STUCK_AT, rig.current, 77, 2 * TestRig.TICK, 0),
                Programs.term(1, TermRole.WHILE, rig.trigger, Comparison.IS, 0),
                Programs.entry(2, EntryKind.STUCK_AT, rig.start, 1, 2 * TestRig.TICK, 0));
        arm();
        triggers(0, 1, 0);
        assertOff("3:0:" + UNTIL, "3:1:" + WHILE, "3:2:" + LASTED);
    }

    @Test
    void untilBeatsTheEndOfAOneTickEntry() {
        rig.load(
                Programs.entry(0, EntryKind.SPIKE, rig.position, 77, 0, Entry.ONE_TICK),
                Programs.term(0, TermRole.UNTIL, rig.trigger, Comparison.IS, 0));
        arm();
        rig.ticks(2);
        assertOff("2:0:" + UNTIL);
    }

    @Test
    void aFollowerStrikesAndEndsWithItsLeader() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 3 * TestRig.TICK, 0),
                Programs.timing(0, 0, 0, 1, 0),
                Programs.when(0, rig.trigger, Comparison.IS, 1),
                Programs.term(0, TermRole.UNTIL, rig.trigger, Comparison.IS, 2),
                Programs.follower(1, 0, EntryKind.STUCK_AT, rig.current, 5, 0, 0));
        arm();
        triggers(1, 0, 0, 0);
        assertEquals(5, rig.told(rig.current));
        assertEquals(3, rig.record().active);
        triggers(0);
        assertEquals(0, rig.told(rig.current));
        assertEquals(0, rig.record().active);
        triggers(1, 2, 2);
        assertEquals(Arrays.asList("2:0:1", "2:1:1", "7:0:2", "7:1:2"), rig.events(EventKind.ENTRY_ON, zero));
        assertOff("5:0:" + LASTED, "5:1:" + LASTED, "8:0:" + UNTIL, "8:1:" + UNTIL);
    }

    @Test
    void aFollowerMayEndBeforeItsLeader() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, 3 * TestRig.TICK, 0),
                Programs.follower(1, 0, EntryKind.SPIKE, rig.current, 5, 0, Entry.ONE_TICK),
                Programs.follower(2, 0, EntryKind.SPIKE, rig.trigger, 5, 2 * TestRig.TICK, 0));
        arm();
        rig.ticks(5);
        assertOff("2:1:" + LASTED, "3:2:" + LASTED, "4:0:" + LASTED);
    }

    @Test
    void aOneTickLeaderEndsItsFollowers() {
        rig.load(
                Programs.entry(0, EntryKind.SPIKE, rig.position, 77, 0, Entry.ONE_TICK),
                Programs.follower(1, 0, EntryKind.STUCK_AT, rig.current, 5, 0, 0));
        arm();
        rig.ticks(3);
        assertOff("2:0:" + LASTED, "2:1:" + LASTED);
    }

    @Test
    void anEntryThatEndedMayStrikeAgainFromTheSameTickOn() {
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 77, TestRig.TICK, 0),
                Programs.timing(0, 0, 0, 1, 0),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        arm();
        // On in 2; off from 3 on, at whose end the next occasion comes.
        triggers(1, 0, 1, 0);
        assertEquals(Arrays.asList("2:0:1", "4:0:2"), rig.events(EventKind.ENTRY_ON, zero));
        assertOff("3:0:" + LASTED);
    }
}
