package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;

/** What the control code is given. */
class ReadingTests {
    private final TestRig rig = new TestRig();

    @Test
    void withoutABenchWhatIsReadIsWhatIsTold() {
        for (Channel channel : rig.description.channels()) {
            rig.real(channel, channel.highest());
        }
        rig.ticks(5);
        for (Channel channel : rig.description.channels().subList(2, rig.real.length)) {
            assertEquals(channel.highest(), rig.told(channel), channel.name());
        }
    }

    @Test
    void aReadingOutsideItsRangeIsPassedUnchangedUntilItIsForced() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.OFFSET, rig.position, 1), Programs.when(0, rig.trigger, Comparison.IS, 1));
        rig.arm();
        rig.real(rig.position, 5000);
        rig.real(rig.trigger, 1);
        rig.tick();
        assertEquals(5000, rig.told(rig.position));
        rig.tick();
        assertEquals(1000, rig.told(rig.position));
    }

    @Test
    void theFirstReadOfATickDecides() {
        rig.probe.beginTick();
        assertEquals(3, rig.probe.read(rig.position, 3));
        assertEquals(3, rig.probe.read(rig.position, 8));
        assertEquals(40, rig.probe.drive(rig.motor, 40));
        assertEquals(40, rig.probe.drive(rig.motor, 90));
        rig.probe.endTick();
        rig.probe.beginTick();
        assertEquals(8, rig.probe.read(rig.position, 8));
        rig.probe.endTick();
    }

    @Test
    void entriesActInAscendingNumberWithOneClampAtTheEnd() {
        rig.begin();
        rig.load(
                Programs.entry(0, EntryKind.OFFSET, rig.position, 900),
                Programs.entry(1, EntryKind.SCALE, rig.position, 1 << 15),
                Programs.entry(2, EntryKind.OFFSET, rig.position, -100));
        rig.arm();
        rig.real(rig.position, 500);
        rig.tick();
        // (500 + 900) / 2 - 100: the 1400 between is beyond the range of 1000, and is not clamped.
        assertEquals(600, rig.told(rig.position));
    }

    @Test
    void freezeHoldsTheRealValueOfTheTickThatStruckWhateverElseWasTold() {
        rig.begin();
        rig.load(
                Programs.entry(0, EntryKind.OFFSET, rig.position, 50),
                Programs.entry(1, EntryKind.FREEZE, rig.position, 0),
                Programs.when(1, rig.trigger, Comparison.IS, 1));
        rig.arm();
        rig.real(rig.position, 100);
        rig.tick();
        assertEquals(150, rig.told(rig.position));
        rig.real(rig.position, 110);
        rig.real(rig.trigger, 1);
        rig.tick();
        rig.real(rig.position, 120);
        rig.ticks(3);
        assertEquals(110, rig.told(rig.position));
    }

    @Test
    void freezeAfterADelayHoldsTheValueOfTheTickInWhichTheDelayWasOver() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.FREEZE, rig.position, 0), Programs.timing(0, 0, 2 * TestRig.TICK, 1, 1));
        rig.arm();
        for (int i = 1; i <= 5; i++) {
            rig.real(rig.position, 100 * i);
            rig.tick();
        }
        assertEquals(200, rig.told(rig.position));
    }

    @Test
    void eachStrikeOfAFreezeTakesANewValue() {
        rig.begin();
        rig.load(
                Programs.entry(0, EntryKind.FREEZE, rig.position, 0, TestRig.TICK, 0),
                Programs.timing(0, 0, 0, 1, 0),
                Programs.when(0, rig.trigger, Comparison.IS, 1));
        rig.arm();
        int[] triggers = {1, 0, 1, 0};
        int[] told = {10, 10, 30, 30};
        for (int i = 0; i < triggers.length; i++) {
            rig.real(rig.trigger, triggers[i]);
            rig.real(rig.position, 10 * (i + 1));
            rig.tick();
            assertEquals(told[i], rig.told(rig.position), "tick " + (i + 1));
        }
    }

    @Test
    void inhibitionsAndCommandsAreForcedLikeReadings() {
        rig.begin();
        Channel inhibition = rig.fs1.inhibition();
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, inhibition, 1),
                Programs.entry(1, EntryKind.STUCK_AT, rig.start, 2, 0, Entry.ONE_TICK));
        rig.arm();
        rig.tick();
        assertEquals(1, rig.told(inhibition));
        assertEquals(2, rig.told(rig.start));
    }

    @Test
    void scalesOfScalesDoNotLeaveTheirNumbers() {
        rig.begin();
        for (int i = 0; i < 6; i++) {
            rig.load(Programs.entry(i, EntryKind.SCALE, rig.position, Integer.MAX_VALUE));
        }
        rig.arm();
        rig.real(rig.position, 1000);
        rig.tick();
        assertEquals(1000, rig.told(rig.position));
        rig.real(rig.position, -1000);
        rig.tick();
        assertEquals(-1000, rig.told(rig.position));
    }

    @Test
    void aTickIsBegunAndEndedInTurn() {
        assertThrows(IllegalStateException.class, rig.probe::endTick);
        rig.probe.beginTick();
        assertThrows(IllegalStateException.class, rig.probe::beginTick);
    }
}
