package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.Record;
import snagbench.wire.Watch;

class RecordTests {
    private final TestRig rig = new TestRig();

    private void watch(TestRig watched, int period, Channel... channels) {
        watched.open();
        watched.keep();
        int[] indexes = new int[channels.length];
        for (int i = 0; i < indexes.length; i++) {
            indexes[i] = channels[i].index();
        }
        watched.askDone(new Watch(period, 0, indexes));
        watched.replies.clear();
    }

    private void currents(int... values) {
        for (int value : values) {
            rig.real(rig.current, value);
            rig.tick();
        }
    }

    @Test
    void carriesTheTickItsClockAndTheValuesInTheOrderWatched() {
        watch(rig, 1, rig.trigger, rig.position);
        rig.real(rig.position, -7);
        rig.real(rig.trigger, 9);
        rig.tick();
        Record record = rig.record();
        assertEquals(rig.tick, record.tick);
        assertEquals(rig.micros, record.micros);
        assertEquals(1, record.periodTicks);
        assertEquals(2, record.count());
        assertEquals(9, record.told(0));
        assertEquals(-7, record.told(1));
        assertEquals(Record.LEASED, record.flags);
    }

    @Test
    void carriesRealValuesWhereTheyAreForced() {
        watch(rig, 1, rig.current, rig.position);
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.position, 5));
        rig.arm();
        rig.real(rig.position, 3);
        rig.tick();
        Record record = rig.record();
        assertEquals(2, record.forced);
        assertEquals(5, record.told(1));
        assertEquals(3, record.real(1));
    }

    @Test
    void aChannelThatIsNotReadIsStaleAndKeepsRealAndTold() {
        watch(rig, 1, rig.position);
        rig.load(Programs.entry(0, EntryKind.SPIKE, rig.position, 100, 0, Entry.ONE_TICK));
        rig.arm();
        rig.real(rig.position, 3);
        rig.tick();
        rig.leftOut[rig.position.index()] = true;
        rig.tick();
        Record record = rig.record();
        assertEquals(1, record.stale);
        assertEquals(0, record.active);
        assertEquals(103, record.told(0));
        assertEquals(3, record.real(0), "what was real when it was read last");
    }

    @Test
    void aDropoutIsFlagged() {
        watch(rig, 1, rig.current, rig.position);
        rig.load(Programs.entry(0, EntryKind.DROPOUT, rig.position, 0));
        rig.arm();
        assertEquals(0, rig.record().absent);
        rig.tick();
        assertEquals(2, rig.record().absent);
        assertEquals(-999, rig.record().told(1));
    }

    @Test
    void aPeriodCarriesLastLeastAndGreatest() {
        watch(rig, 3, rig.current);
        currents(9);
        rig.replies.clear();
        // The watch request's own tick was the first of a period, so this one is its last.
        currents(5);
        assertEquals(1, rig.all(Record.class).size());
        currents(7, 2, 4);
        Record record = rig.record();
        assertEquals(2, rig.all(Record.class).size());
        assertEquals(rig.tick, record.tick);
        assertEquals(3, record.periodTicks);
        assertEquals(4, record.told(0));
        assertEquals(2, record.leastTold(0));
        assertEquals(7, record.greatestTold(0));
    }

    @Test
    void theFirstValueOfAPeriodIsItsOwn() {
        watch(rig, 2, rig.current);
        currents(0);
        currents(500, 1, 2, 3);
        Record record = rig.record();
        assertEquals(3, record.greatestTold(0));
        assertEquals(2, record.leastTold(0));
    }

    @Test
    void aValueThatIsHeldFromBeforeThePeriodCountsInIt() {
        watch(rig, 2, rig.current);
        currents(50);
        rig.leftOut[rig.current.index()] = true;
        currents(50);
        rig.leftOut[rig.current.index()] = false;
        currents(7);
        Record record = rig.record();
        assertEquals(7, record.told(0));
        assertEquals(50, record.greatestTold(0));
        assertEquals(0, record.stale);
    }

    @Test
    void aPeriodTellsWhetherAnyTickOfItWasForced() {
        watch(rig, 3, rig.position);
        rig.load(Programs.entry(0, EntryKind.SPIKE, rig.position, 100, 0, Entry.ONE_TICK));
        rig.arm();
        rig.real(rig.position, 3);
        rig.ticks(2);
        Record record = rig.record();
        assertEquals(rig.tick, record.tick, "the period starts with tick 0");
        assertEquals(1, record.forced);
        assertEquals(3, record.told(0));
        assertEquals(103, record.greatestTold(0));
        assertEquals(3, record.greatestReal(0));
        assertEquals(0, record.leastTold(0));
    }

    @Test
    void aPeriodTellsItsShortestAndLongestLoop() {
        watch(rig, 2, rig.current);
        rig.tick();
        rig.tickAfter(300);
        rig.tickAfter(8000);
        Record record = rig.record();
        assertEquals(300, record.shortestLoopMicros);
        assertEquals(8000, record.longestLoopMicros);
    }

    @Test
    void isCutWhereItDoesNotFitAndOnlyTheLastPartEndsIt() {
        TestRig small = new TestRig(new ProbeLimits(4, 8, 0, 0, 2, 16, 64, 256), false, 0);
        small.begin();
        small.replies.clear();
        for (Channel channel : small.description.channels()) {
            small.real(channel, Integer.MAX_VALUE);
        }
        small.tick();
        List<Record> parts = small.all(Record.class);
        assertTrue(parts.size() > 1, "one part");
        int channel = 0;
        for (int i = 0; i < parts.size(); i++) {
            Record part = parts.get(i);
            assertEquals(channel, part.first);
            assertEquals(small.tick, part.tick);
            assertEquals(i < parts.size() - 1, (part.flags & Record.MORE) != 0);
            channel += part.count();
        }
        assertEquals(small.description.channels().size(), channel);
    }

    @Test
    void isDroppedWholeWhereAFrameDoesNotTakeOneOfItsChannels() {
        TestRig small = new TestRig(new ProbeLimits(4, 8, 0, 0, 2, 16, 64, 256), false, 1 << 30);
        watch(small, 2, small.trigger, small.wide);
        small.load(Programs.entry(0, EntryKind.OFFSET, small.wide, 1));
        small.real(small.wide, Integer.MIN_VALUE);
        small.arm();
        small.replies.clear();
        for (int i = 0; i < 4; i++) {
            small.real(small.wide, i % 2 != 0 ? Integer.MIN_VALUE : Integer.MAX_VALUE);
            small.tickAfter(100_000);
        }
        assertEquals(0, small.all(Record.class).size());
        small.real(small.wide, 7);
        small.ticks(4);
        assertTrue(small.record().dropped >= 2, small.record().dropped + " dropped");
    }

    @Test
    void anEmptyListStopsTheRecords() {
        watch(rig, 1, rig.current);
        rig.tick();
        assertEquals(1, rig.all(Record.class).size());
        rig.askDone(new Watch(1, 0));
        rig.replies.clear();
        rig.ticks(3);
        assertEquals(0, rig.all(Record.class).size());
    }

    @Test
    void aLongListGoesInSeveralMessages() {
        watch(rig, 1, rig.current, rig.position);
        rig.askDone(new Watch(1, 2, rig.trigger.index()));
        rig.real(rig.trigger, 9);
        rig.tick();
        assertEquals(3, rig.record().count());
        assertEquals(9, rig.record().told(2));
    }
}
