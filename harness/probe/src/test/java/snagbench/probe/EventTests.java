package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import snagbench.wire.Answer;
import snagbench.wire.EntryKind;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Keep;
import snagbench.wire.Record;

class EventTests {
    private final TestRig rig = new TestRig(new ProbeLimits(4, 8, 0, 0, 2, 8, 512, 1024), false, 0);

    private List<Integer> numbers() {
        List<Integer> numbers = new ArrayList<>();
        for (Event event : rig.all(Event.class)) {
            numbers.add(event.number);
        }
        return numbers;
    }

    private void steps(int... steps) {
        for (int step : steps) {
            rig.real(rig.step, step);
            rig.tick();
        }
    }

    @Test
    void aChangeOfAStateIsAnEventInItsTick() {
        rig.begin();
        rig.replies.clear();
        steps(0, 2);
        int changed = rig.tick;
        steps(2, 2);
        Event event = rig.last(Event.class);
        assertEquals(1, rig.all(Event.class).size());
        assertEquals(changed, event.tick);
        assertEquals(rig.micros - 2 * TestRig.TICK, event.micros);
        assertEquals(EventKind.STATE.code(), event.kind);
        assertEquals(rig.step.index(), event.a);
        assertEquals(2, event.b);
    }

    @Test
    void eventsAreNumberedAndEachRecordCarriesTheNewest() {
        rig.begin();
        rig.replies.clear();
        steps(1, 2);
        List<Integer> numbers = numbers();
        assertEquals(2, numbers.size());
        assertEquals(numbers.get(0) + 1, numbers.get(1));
        assertEquals(numbers.get(1), rig.record().newestEvent);
    }

    @Test
    void theAnswerToArmTellsTheNewestEventFromBefore() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        steps(1);
        Answer armed = rig.arm();
        Event first = rig.all(Event.class).get(0);
        assertEquals(armed.word + 1, first.number);
        assertEquals(EventKind.ARMED.code(), first.kind);
        assertEquals(1, first.a);
        assertEquals(42, first.b);
        assertEquals(armed.tick, first.tick);
    }

    @Test
    void whatWasNotSeenIsSentAgainWithTheNextKeep() {
        rig.begin();
        steps(1, 2, 3);
        List<Integer> all = numbers();
        int newest = all.get(all.size() - 1);
        rig.replies.clear();
        rig.ticks(3);
        assertEquals(Collections.emptyList(), numbers());
        Answer kept = rig.ask(new Keep(5000, newest - 2));
        assertEquals(newest, kept.word);
        assertEquals(Arrays.asList(newest - 1, newest), numbers());
        rig.replies.clear();
        rig.askDone(new Keep(5000, newest));
        rig.ticks(3);
        assertEquals(Collections.emptyList(), numbers());
    }

    @Test
    void aNumberThatNeverWasIsNotSeen() {
        rig.begin();
        steps(1);
        List<Integer> all = numbers();
        rig.replies.clear();
        rig.askDone(new Keep(5000, 1000));
        assertEquals(all, numbers());
    }

    @Test
    void theRingHoldsAsManyAsItSaysWithoutLoss() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        rig.arm();
        int seen = rig.last(Event.class).number;
        rig.askDone(new Keep(5000, seen));
        // With the entry's own event from the tick of the keep, 8.
        steps(1, 2, 1, 2, 1, 2, 1);
        assertEquals(0, rig.record().flags & Record.EVENTS_LOST);
        rig.replies.clear();
        rig.askDone(new Keep(5000, seen));
        assertEquals(8, numbers().size());
    }

    @Test
    void anOverflowLosesTheOldestAndIsToldInEveryRecord() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        Answer armed = rig.arm();
        steps(1, 2, 1, 2, 1, 2, 1, 2, 1, 2);
        assertEquals(Record.EVENTS_LOST, rig.record().flags & Record.EVENTS_LOST);
        rig.replies.clear();
        rig.askDone(new Keep(5000, armed.word));
        List<Integer> numbers = numbers();
        assertEquals(8, numbers.size());
        int newest = rig.record().newestEvent;
        assertEquals(newest - 7, numbers.get(0));
        assertEquals(newest, numbers.get(7));
        rig.ticks(2);
        assertEquals(Record.EVENTS_LOST, rig.record().flags & Record.EVENTS_LOST);
    }

    @Test
    void theLossIsForgottenWithTheNextArming() {
        rig.begin();
        steps(1, 2, 1, 2, 1, 2, 1, 2, 1, 2);
        rig.tick();
        assertTrue((rig.record().flags & Record.EVENTS_LOST) != 0);
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        rig.arm();
        assertEquals(0, rig.record().flags & Record.EVENTS_LOST);
    }

    @Test
    void aNewSessionIsOwedNothingFromBefore() {
        rig.begin();
        steps(1, 2, 3);
        rig.letGo();
        rig.session = TestRig.OTHER_SESSION;
        rig.replies.clear();
        rig.open();
        rig.ticks(2);
        assertEquals(Collections.emptyList(), numbers());
    }

    @Test
    void aRestartCountsEventsFromOneAgain() {
        rig.begin();
        steps(1, 2, 3);
        rig.restart();
        rig.boot++;
        rig.replies.clear();
        rig.real(rig.step, 0);
        rig.begin();
        assertEquals(1, numbers().get(0));
    }
}
