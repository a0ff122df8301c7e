package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Collections;
import org.junit.jupiter.api.Test;
import snagbench.wire.Answer;
import snagbench.wire.Comparison;
import snagbench.wire.Do;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.Keep;
import snagbench.wire.LetGo;
import snagbench.wire.Record;
import snagbench.wire.Refusal;
import snagbench.wire.StopReason;

/** Lease, safe stop, latch: stop first, then let go. */
class StopTests {
    private final TestRig rig = new TestRig();

    private void forceCurrent() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        rig.arm();
        rig.tick();
        assertEquals(5, rig.told(rig.current));
    }

    @Test
    void theLeaseRunsOutAtTheFirstTickWhoseClockHasReachedIt() {
        rig.begin();
        rig.askDone(new Keep(1, 0));
        rig.tickAfter(999);
        assertEquals(Collections.emptyList(), rig.stop.reasons);
        rig.tickAfter(1);
        assertEquals(Arrays.asList(StopReason.LEASE), rig.stop.reasons);
        assertEquals(rig.tick + ":0:0", last(EventKind.LEASE));
    }

    private String last(EventKind kind) {
        java.util.List<String> all = rig.events(kind, 0);
        return all.get(all.size() - 1);
    }

    @Test
    void aRenewedLeaseLivesOn() {
        forceCurrent();
        for (int i = 0; i < 5; i++) {
            rig.send(new Keep(10_000, 0));
            rig.tickAfter(9_999_999);
        }
        assertEquals(Collections.emptyList(), rig.stop.reasons);
        assertEquals(5, rig.told(rig.current));
    }

    @Test
    void aRenewalInTheTickInWhichTheLeaseWouldEndIsInTime() {
        rig.begin();
        rig.askDone(new Keep(1, 0));
        rig.send(new Keep(1, 0));
        rig.tickAfter(1000);
        assertEquals(Collections.emptyList(), rig.stop.reasons);
    }

    @Test
    void withoutRenewalTheRigStopsLatchesAndOnlyThenLetsGo() {
        forceCurrent();
        rig.stop.asksUntilStopped = 4;
        rig.tickAfter(10_000_000);
        for (int i = 0; i < 4; i++) {
            rig.tick();
            assertEquals(5, rig.told(rig.current), "tick " + i + " of the stop");
            assertEquals(Record.STOPPING, rig.record().flags & Record.STOPPING);
        }
        rig.tick();
        assertEquals(0, rig.told(rig.current));
        int flags = rig.record().flags;
        assertEquals(Record.LATCHED, flags & (Record.LATCHED | Record.STOPPING | Record.ARMED | Record.LEASED));
        assertFalse(rig.probe.mayMove());
    }

    @Test
    void aLatchIsReleasedOnlyUnderALease() {
        forceCurrent();
        rig.tickAfter(10_000_000);
        rig.ticks(3);
        assertEquals(Refusal.NO_LEASE.code(), rig.ask(new Do(Do.RELEASE_LATCH, -1, 0)).code);
        rig.keep();
        rig.askDone(new Do(Do.RELEASE_LATCH, -1, 0));
        assertTrue(rig.probe.mayMove());
        rig.askDone(new Do(Do.COMMAND, rig.start.index(), 2));
        assertEquals(2, rig.told(rig.start));
    }

    @Test
    void aNewSessionFindsTheLatchInPlace() {
        forceCurrent();
        rig.tickAfter(10_000_000);
        rig.ticks(3);
        rig.session = TestRig.OTHER_SESSION;
        rig.open();
        rig.keep();
        Answer refused = rig.ask(new Do(Do.COMMAND, rig.start.index(), 2));
        assertEquals(Refusal.LATCHED.code(), refused.code);
        assertEquals(StopReason.LEASE.code(), refused.word);
    }

    @Test
    void letGoIsAnsweredWhenTheMachineStandsAndEverythingIsDropped() {
        forceCurrent();
        rig.stop.asksUntilStopped = 3;
        int asked = rig.send(new LetGo());
        rig.tick();
        for (int i = 0; i < 3; i++) {
            rig.tick();
            assertEquals(5, rig.told(rig.current));
            assertNull(rig.answerTo(asked));
        }
        rig.tick();
        assertEquals(0, rig.told(rig.current));
        Answer answer = rig.answerTo(asked);
        assertNotNull(answer);
        assertTrue(answer.done());
        assertEquals(0, answer.word);
        assertEquals(rig.tick, answer.tick);
        assertEquals(rig.micros, answer.micros);
        assertTrue(rig.probe.mayMove(), "a stop that the bench asked for is not latched");
        assertEquals(0, rig.record().flags);
    }

    @Test
    void whatTheStopSaidBeforeItWasTakenInHandDoesNotCount() {
        forceCurrent();
        rig.stop.asksUntilStopped = 0;
        rig.send(new LetGo());
        rig.tick();
        rig.tick();
        assertEquals(5, rig.told(rig.current), "the control code has had one tick");
        rig.tick();
        assertEquals(0, rig.told(rig.current));
    }

    @Test
    void aRepeatedLetGoWaitsForTheOneAnswer() {
        forceCurrent();
        rig.stop.asksUntilStopped = 4;
        int asked = rig.send(new LetGo());
        rig.tick();
        rig.replies.clear();
        rig.send(rig.session, rig.boot, asked, new LetGo());
        rig.ticks(2);
        assertTrue(rig.all(Answer.class).isEmpty(), "neither its own answer nor the one before it");
        rig.ticks(3);
        assertNotNull(rig.answerTo(asked));
        rig.replies.clear();
        rig.send(rig.session, rig.boot, asked, new LetGo());
        rig.ticks(5);
        assertNotNull(rig.answerTo(asked));
        assertEquals(1, rig.stop.reasons.size());
    }

    @Test
    void aKeepDuringALetGoDoesNotTakeItsAnswer() {
        forceCurrent();
        rig.stop.asksUntilStopped = 4;
        int asked = rig.send(new LetGo());
        rig.tick();
        rig.keep();
        int kept = rig.number;
        rig.ticks(5);
        Answer answer = rig.answerTo(asked);
        assertNotNull(answer);
        assertTrue(answer.done());
        rig.replies.clear();
        rig.send(rig.session, rig.boot, kept, new Keep(10_000, 0));
        rig.tick();
        assertNotNull(rig.answerTo(kept), "the last request's answer is given again");
    }

    @Test
    void aLeaseThatEndsInALetGoNeitherLatchesNorStopsAgain() {
        forceCurrent();
        rig.stop.asksUntilStopped = 4;
        rig.send(new LetGo());
        rig.tick();
        rig.tickAfter(10_000_000);
        rig.ticks(6);
        assertEquals(Arrays.asList(StopReason.LET_GO), rig.stop.reasons);
        assertTrue(rig.probe.mayMove());
    }

    @Test
    void theProgramStandsStillWhileTheRigStops() {
        rig.begin();
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5, 2 * TestRig.TICK, 0),
                Programs.entry(1, EntryKind.STUCK_AT, rig.position, 6),
                Programs.when(1, rig.trigger, Comparison.IS, 1));
        rig.arm();
        rig.tick();
        rig.stop.asksUntilStopped = 6;
        rig.real(rig.trigger, 1);
        rig.send(new LetGo());
        rig.ticks(6);
        assertEquals(5, rig.told(rig.current));
        assertEquals(0, rig.told(rig.position));
        assertEquals(1, rig.record().active);
    }

    @Test
    void noCommandIsToldWhileTheRigStops() {
        rig.begin();
        rig.load(Programs.send(0, -1, rig.start, 1));
        rig.arm();
        rig.send(new LetGo());
        rig.tick();
        assertEquals(1, rig.told(rig.start));
        rig.tick();
        assertEquals(0, rig.told(rig.start));
    }

    @Test
    void inAStopAnActuatorIsNotWeakened() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.SCALE, rig.motor, 1 << 15));
        rig.arm();
        rig.real(rig.motor, -801);
        rig.tick();
        assertEquals(-400, rig.told(rig.motor));
        rig.stop.asksUntilStopped = 3;
        rig.send(new LetGo());
        rig.tick();
        rig.tick();
        assertEquals(-801, rig.told(rig.motor));
    }

    @Test
    void anOverrideNeverAddsDriveNorTurnsIt() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.SCALE, rig.motor, 1 << 16));
        rig.arm();
        for (int wanted : new int[] {1000, 1, 0, -1, -1000}) {
            rig.real(rig.motor, wanted);
            rig.tick();
            assertEquals(wanted, rig.told(rig.motor));
        }
    }

    @Test
    void afterALetGoTheNextProgramCanBeLoadedInTheSameSession() {
        forceCurrent();
        rig.letGo();
        assertEquals(Refusal.NO_LEASE.code(), rig.ask(rig.armRequest()).code);
        rig.keep();
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.position, 9));
        rig.arm();
        rig.tick();
        assertEquals(9, rig.told(rig.position));
        assertEquals(0, rig.told(rig.current));
    }

    @Test
    void nothingIsForcedAfterARestart() {
        forceCurrent();
        rig.restart();
        rig.ticks(3);
        assertEquals(0, rig.told(rig.current));
        assertTrue(rig.probe.mayMove());
    }

    @Test
    void aCommandStageOfTheOldBootIsNotTakenAfterARestart() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.start, 1, 0, Entry.ONE_TICK));
        rig.restart();
        rig.send(rig.armRequest());
        rig.ticks(3);
        Answer answer = rig.answerTo(rig.number);
        assertNotNull(answer);
        assertEquals(Refusal.OTHER_BOOT.code(), answer.code);
        assertEquals(0, rig.told(rig.start));
        assertTrue(rig.enable.seeds.isEmpty(), "never armed");
    }
}
