package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import snagbench.wire.Answer;
import snagbench.wire.CborWriter;
import snagbench.wire.Do;
import snagbench.wire.EntryKind;
import snagbench.wire.FrameWriter;
import snagbench.wire.Hello;
import snagbench.wire.Item;
import snagbench.wire.ItemRequest;
import snagbench.wire.Keep;
import snagbench.wire.Open;
import snagbench.wire.Refusal;
import snagbench.wire.ResetCause;
import snagbench.wire.Watch;

/** Requests: which session, which boot, once or again. */
class SessionTests {
    private final TestRig rig = new TestRig();

    private @Nullable Answer answer(int session, int number) {
        Answer found = null;
        for (Answer answer : rig.all(Answer.class)) {
            if (answer.session == session && answer.number == number) {
                found = answer;
            }
        }
        return found;
    }

    private void assertRefused(Refusal why, int session, int number) {
        Answer answer = answer(session, number);
        assertNotNull(answer, "no answer");
        assertEquals(why.code(), answer.code);
        assertEquals(rig.tick, answer.tick);
        assertEquals(rig.micros, answer.micros);
    }

    @Test
    void greetsAtBoot() {
        rig.tick();
        Hello hello = rig.last(Hello.class);
        assertEquals(0, hello.session);
        assertEquals(0, hello.number);
        assertEquals(TestRig.BOOT, hello.boot);
        assertEquals(ResetCause.POWER_ON.code(), hello.cause);
        assertEquals(rig.description.digest(), hello.digest);
    }

    @Test
    void tellsNothingButItsGreetingBeforeASessionIsOpen() {
        rig.real(rig.step, 2);
        rig.answering.add(rig.fs1);
        rig.ticks(3);
        assertEquals(1, rig.replies.size());
    }

    @Test
    void anOpenIsAnsweredWithTheGreeting() {
        Hello hello = rig.open();
        assertEquals(TestRig.SESSION, hello.session);
        assertEquals(1, hello.number);
    }

    @Test
    void aRepeatedOpenIsAnsweredAgainAndClearsNothing() {
        rig.open();
        rig.replies.clear();
        rig.send(rig.session, 0, 1, new Open(1, 1));
        rig.tick();
        assertEquals(1, rig.last(Hello.class).number);
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        rig.send(rig.session, 0, 1, new Open(1, 1));
        rig.tick();
        rig.arm();
    }

    @Test
    void anotherSessionIsRefusedAsBusyWhileTheLeaseLives() {
        rig.begin();
        rig.askDone(new Keep(8000, 0));
        rig.send(TestRig.OTHER_SESSION, 0, 1, new Open(1, 1));
        rig.tickAfter(1_000_500);
        assertRefused(Refusal.BUSY, TestRig.OTHER_SESSION, 1);
        Answer busy = answer(TestRig.OTHER_SESSION, 1);
        assertEquals(7000, busy == null ? 0 : busy.word);
        rig.askDone(new Keep(8000, 0));
    }

    @Test
    void aRefusalToAStrangerDoesNotTakeThePlaceOfTheLastAnswer() {
        rig.begin();
        int asked = rig.send(new Keep(5000, 0));
        rig.tick();
        rig.replies.clear();
        rig.send(TestRig.OTHER_SESSION, 0, 1, new Open(1, 1));
        rig.send(rig.session, rig.boot, asked, new Keep(5000, 0));
        rig.tick();
        assertRefused(Refusal.BUSY, TestRig.OTHER_SESSION, 1);
        assertNotNull(answer(rig.session, asked));
    }

    @Test
    void anotherSessionMayOpenWhenTheLeaseIsGone() {
        rig.begin();
        rig.letGo();
        rig.session = TestRig.OTHER_SESSION;
        assertEquals(TestRig.OTHER_SESSION, rig.open().session);
        rig.send(TestRig.SESSION, rig.boot, 99, new Keep(1000, 0));
        rig.tick();
        assertRefused(Refusal.OTHER_SESSION, TestRig.SESSION, 99);
    }

    @Test
    void noSessionCanBeOpenedWhileTheRigStops() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        rig.arm();
        rig.stop.asksUntilStopped = 10;
        rig.tickAfter(10_000_000);
        rig.send(TestRig.OTHER_SESSION, 0, 1, new Open(1, 1));
        rig.tick();
        assertRefused(Refusal.NOT_NOW, TestRig.OTHER_SESSION, 1);
    }

    @Test
    void aVersionThatIsNotSpokenIsRefusedWithTheOneThatIs() {
        rig.send(TestRig.SESSION, 0, 1, new Open(2, 9));
        rig.tick();
        assertRefused(Refusal.UNKNOWN_KIND, TestRig.SESSION, 1);
        assertEquals(1, rig.last(Answer.class).word);
    }

    @Test
    void aRequestOfAnotherBootIsRefusedAndBootIsLookedAtFirst() {
        rig.begin();
        rig.send(rig.session, TestRig.BOOT + 1, 50, new Keep(1000, 0));
        rig.tick();
        assertRefused(Refusal.OTHER_BOOT, rig.session, 50);
        rig.send(TestRig.OTHER_SESSION, TestRig.BOOT + 1, 51, new Keep(1000, 0));
        rig.tick();
        assertRefused(Refusal.OTHER_BOOT, TestRig.OTHER_SESSION, 51);
    }

    @Test
    void anOldRequestAfterARestartIsRefused() {
        rig.begin();
        rig.restart();
        int asked = rig.send(new Do(Do.COMMAND, rig.start.index(), 1));
        rig.ticks(2);
        assertRefusedEarlier(Refusal.OTHER_BOOT, rig.session, asked);
        assertEquals(0, rig.told(rig.start));
    }

    private void assertRefusedEarlier(Refusal why, int session, int number) {
        Answer answer = answer(session, number);
        assertNotNull(answer);
        assertEquals(why.code(), answer.code);
    }

    @Test
    void aRepeatedRequestIsAnsweredWithTheFirstAnswerAndNotDoneTwice() {
        rig.begin();
        int asked = rig.send(new Do(Do.COMMAND, rig.start.index(), 2));
        rig.tick();
        assertEquals(2, rig.told(rig.start));
        Answer first = answer(rig.session, asked);
        assertNotNull(first);
        rig.ticks(3);
        rig.replies.clear();
        rig.send(rig.session, rig.boot, asked, new Do(Do.COMMAND, rig.start.index(), 2));
        rig.tick();
        assertEquals(0, rig.told(rig.start));
        Answer again = answer(rig.session, asked);
        assertNotNull(again);
        assertEquals(first.tick, again.tick);
        assertEquals(first.micros, again.micros);
        assertEquals(first.word, again.word);
    }

    @Test
    void aRepeatedRequestInTheSameTickIsDoneOnce() {
        rig.begin();
        int asked = rig.send(new Do(Do.COMMAND, rig.start.index(), 2));
        rig.send(rig.session, rig.boot, asked, new Do(Do.COMMAND, rig.start.index(), 2));
        rig.tick();
        assertEquals(2, rig.told(rig.start));
        assertNotNull(answer(rig.session, asked));
    }

    @Test
    void aRequestWithALowerNumberIsDroppedAndOneWithAGapIsTaken() {
        rig.begin();
        rig.number += 10;
        int asked = rig.send(new Keep(1000, 0));
        rig.tick();
        assertNotNull(answer(rig.session, asked));
        rig.send(rig.session, rig.boot, asked - 3, new Do(Do.COMMAND, rig.start.index(), 2));
        rig.ticks(2);
        assertNull(answer(rig.session, asked - 3));
        assertEquals(0, rig.told(rig.start));
    }

    @Test
    void tellsEachItemOfItsDescription() {
        rig.open();
        int items = rig.description.items().size();
        for (int i = 0; i < items; i++) {
            rig.send(new ItemRequest(i));
            rig.tick();
            Item item = rig.last(Item.class);
            assertEquals(i, item.index);
            assertEquals(rig.number, item.number);
            CborWriter told = new CborWriter(64);
            item.writeContent(told);
            CborWriter own = new CborWriter(64);
            rig.description.items().get(i).writeContent(own);
            assertEquals(own.length(), told.length());
        }
        assertEquals(Refusal.MALFORMED.code(), rig.ask(new ItemRequest(items)).code);
    }

    @Test
    void aRequestItDoesNotKnowIsRefusedWithItsType() {
        rig.open();
        raw(4, 63, rig.session, rig.boot, ++rig.number);
        rig.tick();
        assertRefused(Refusal.UNKNOWN_REQUEST, rig.session, rig.number);
        assertEquals(63, rig.last(Answer.class).word);
    }

    @Test
    void aMessageOfARigIsNoRequest() {
        rig.open();
        raw(4, 36, rig.session, rig.boot, ++rig.number);
        rig.tick();
        assertRefused(Refusal.UNKNOWN_REQUEST, rig.session, rig.number);
    }

    @Test
    void fieldsTooManyOrTooFewAreRefused() {
        rig.open();
        int keep = 10;
        raw(5, keep, rig.session, rig.boot, ++rig.number, 1000);
        rig.tick();
        assertRefused(Refusal.MALFORMED, rig.session, rig.number);
        raw(7, keep, rig.session, rig.boot, ++rig.number, 1000, 0, 0);
        rig.tick();
        assertRefused(Refusal.MALFORMED, rig.session, rig.number);
        int letGo = 12;
        raw(5, letGo, rig.session, rig.boot, ++rig.number, 1);
        rig.tick();
        assertRefused(Refusal.MALFORMED, rig.session, rig.number);
        assertTrue(rig.stop.reasons.isEmpty());
    }

    private void raw(int items, long... values) {
        FrameWriter frame = new FrameWriter(64);
        CborWriter out = frame.begin();
        out.array(items);
        for (int i = 0; i < values.length; i++) {
            out.integer(i == 1 || i == 2 || i == 3 ? values[i] & 0xFFFFFFFFL : values[i]);
        }
        assertTrue(frame.end());
        rig.line.send(frame.frame(), frame.length());
    }

    @Test
    void aLeaseIsOneMillisecondToTenSeconds() {
        rig.open();
        assertEquals(Refusal.MALFORMED.code(), rig.ask(new Keep(0, 0)).code);
        assertEquals(Refusal.MALFORMED.code(), rig.ask(new Keep(snagbench.wire.Wire.LONGEST_LEASE_MILLIS + 1, 0)).code);
        assertEquals(0, rig.ask(new Keep(1, 0)).code);
    }

    @Test
    void whileArmedOnlyTheLeaseAndLettingGoAreTaken() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        rig.arm();
        assertEquals(Refusal.NOT_NOW.code(), rig.ask(new Watch(1, 0, 1)).code);
        assertEquals(Refusal.NOT_NOW.code(), rig.ask(new ItemRequest(0)).code);
        assertEquals(Refusal.NOT_NOW.code(), rig.ask(new Do(Do.COMMAND, rig.start.index(), 1)).code);
        assertEquals(Refusal.NOT_NOW.code(), rig.ask(rig.armRequest()).code);
        rig.keep();
        assertTrue(rig.letGo().done());
    }

    @Test
    void aCommandIsToldForTheTickInWhichItCame() {
        rig.begin();
        rig.real(rig.start, 1);
        rig.send(new Do(Do.COMMAND, rig.start.index(), 3));
        rig.tick();
        assertEquals(3, rig.told(rig.start));
        assertEquals(0, answer(rig.session, rig.number) == null ? -1 : 0);
        rig.tick();
        assertEquals(1, rig.told(rig.start));
    }

    @Test
    void aCommandThatTheControlCodeDidNotReadIsRefusedAndNeverToldLater() {
        rig.begin();
        rig.leftOut[rig.start.index()] = true;
        int asked = rig.send(new Do(Do.COMMAND, rig.start.index(), 3));
        rig.tick();
        assertRefused(Refusal.NOT_NOW, rig.session, asked);
        rig.leftOut[rig.start.index()] = false;
        rig.ticks(3);
        assertEquals(0, rig.told(rig.start));
    }

    @Test
    void aCommandNeedsALeaseTheEnableACommandChannelAndAValueInRange() {
        rig.open();
        assertEquals(Refusal.NO_LEASE.code(), rig.ask(new Do(Do.COMMAND, rig.start.index(), 1)).code);
        rig.keep();
        assertEquals(Refusal.MALFORMED.code(), rig.ask(new Do(Do.COMMAND, rig.current.index(), 1)).code);
        assertEquals(Refusal.MALFORMED.code(), rig.ask(new Do(Do.COMMAND, 99, 1)).code);
        assertEquals(Refusal.MALFORMED.code(), rig.ask(new Do(Do.COMMAND, rig.start.index(), 4)).code);
        assertEquals(Refusal.UNKNOWN_KIND.code(), rig.ask(new Do(7, rig.start.index(), 1)).code);
        rig.enable.enabled = false;
        assertEquals(Refusal.NOT_ENABLED.code(), rig.ask(new Do(Do.COMMAND, rig.start.index(), 1)).code);
        rig.enable.enabled = true;
        rig.askDone(new Do(Do.COMMAND, rig.start.index(), 1));
    }

    @Test
    void armingNeedsLeaseDigestGuardsAndTheEnable() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        snagbench.wire.Arm right = rig.armRequest();
        assertEquals(
                Refusal.MISMATCH.code(),
                rig.ask(new snagbench.wire.Arm(2, right.digest, 0, right.guardDigest, 1)).code);
        Answer mismatch = rig.ask(new snagbench.wire.Arm(1, right.digest + 1, 0, right.guardDigest, 1));
        assertEquals(Refusal.MISMATCH.code(), mismatch.code);
        assertEquals(right.digest, mismatch.word);
        assertEquals(
                Refusal.MISMATCH.code(),
                rig.ask(new snagbench.wire.Arm(1, right.digest, 1, right.guardDigest, 1)).code);
        assertEquals(
                Refusal.MISMATCH.code(),
                rig.ask(new snagbench.wire.Arm(1, right.digest, 0, right.guardDigest + 1, 1)).code);
        rig.enable.enabled = false;
        assertEquals(Refusal.NOT_ENABLED.code(), rig.ask(right).code);
        rig.enable.enabled = true;
        assertTrue(rig.enable.seeds.isEmpty());
        rig.arm();
        assertEquals(List.of(42), rig.enable.seeds);
    }

    @Test
    void aRealRigRefusesALastingFaultOnAControlLoopWithoutAGuard() {
        TestRig machine = new TestRig(TestRig.ROOMY, true, 0);
        machine.begin();
        machine.load(Programs.entry(0, EntryKind.FREEZE, machine.position, 0));
        Answer refused = machine.ask(machine.armRequest());
        assertEquals(Refusal.NEEDS_GUARD.code(), refused.code);
        assertEquals(machine.position.index(), refused.word);
        machine.load(new snagbench.wire.Guard(0, 0, machine.position.index(), -100, 100, 0, 0, -1));
        machine.arm();
    }

    @Test
    void aSpikeOfOneTickNeedsNoGuard() {
        TestRig machine = new TestRig(TestRig.ROOMY, true, 0);
        machine.begin();
        machine.load(Programs.entry(0, EntryKind.SPIKE, machine.position, 5, 0, snagbench.wire.Entry.ONE_TICK));
        machine.arm();
    }

    @Test
    void takesABoundedNumberOfBytesATick() {
        TestRig small = new TestRig(new ProbeLimits(4, 8, 0, 0, 2, 16, 128, 16), false, 0);
        small.send(small.session, 0, 1, new Open(1, 1));
        int waiting = small.line.waitingForRig();
        assertTrue(waiting > 16);
        small.tick();
        assertEquals(waiting - 16, small.line.waitingForRig());
        small.tick();
        assertEquals(1, small.last(Hello.class).number);
    }
}
