package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Collections;
import org.junit.jupiter.api.Test;
import snagbench.wire.Answer;
import snagbench.wire.Arm;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.Hello;
import snagbench.wire.Keep;
import snagbench.wire.Record;
import snagbench.wire.Refusal;
import snagbench.wire.StopReason;

/** Programs without entries, with which the bench only listens; and a restart that the rig makes by itself. */
class ListeningTests {
    private final TestRig rig = new TestRig();

    @Test
    void aProgramWithoutEntriesIsArmedAndForcesNothing() {
        rig.begin();
        Arm arm = rig.armRequest();
        assertEquals(0, arm.entries);
        assertEquals(0, arm.digest);
        Answer answer = rig.arm();
        int zero = rig.tick;
        assertEquals(Arrays.asList("0:0:" + TestRig.SEED), rig.events(EventKind.ARMED, zero));
        assertEquals(Arrays.asList(TestRig.SEED), rig.enable.seeds);
        assertEquals(zero, answer.tick);
        rig.real(rig.position, 77);
        rig.real(rig.step, 2);
        rig.answering.add(rig.fs2);
        rig.ticks(3);
        assertEquals(77, rig.told(rig.position));
        Record record = rig.record();
        assertEquals(Record.ARMED | Record.LEASED, record.flags);
        assertEquals(0, record.active);
        assertEquals(Arrays.asList("1:" + rig.step.index() + ":2"), rig.events(EventKind.STATE, zero));
        assertEquals(Arrays.asList("1:2:1"), rig.events(EventKind.ANSWERED, zero));
    }

    @Test
    void listeningEndsWithASafeStopToo() {
        rig.begin();
        rig.arm();
        rig.letGo();
        assertEquals(Arrays.asList(StopReason.LET_GO), rig.stop.reasons);
        rig.keep();
        rig.arm();
        rig.askDone(new Keep(1, 0));
        rig.tickAfter(1000);
        rig.ticks(2);
        assertEquals(Arrays.asList(StopReason.LET_GO, StopReason.LEASE), rig.stop.reasons);
        assertEquals(0, rig.record().flags & Record.ARMED);
    }

    @Test
    void listeningIsRefusedWhereEntriesWereLoaded() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        Answer answer = rig.ask(new Arm(0, 0, 0, 0, 1));
        assertEquals(Refusal.MISMATCH.code(), answer.code);
        assertEquals(Collections.emptyList(), rig.enable.seeds);
    }

    /** The control code takes a told disturbance as the order to start anew. */
    @Test
    void aRestartIsADisturbanceLikeAnother() {
        rig.begin();
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.jam, 1),
                Programs.entry(1, EntryKind.STUCK_AT, rig.current, 5));
        rig.arm();
        rig.tick();
        assertEquals(1, rig.told(rig.jam));
        rig.replies.clear();
        rig.restart();
        rig.ticks(2);
        Hello hello = rig.last(Hello.class);
        assertEquals(0, hello.session);
        assertEquals(rig.boot + 1, hello.boot);
        assertEquals(0, rig.told(rig.jam));
        assertEquals(0, rig.told(rig.current));
        assertEquals(Refusal.OTHER_BOOT.code(), rig.ask(new Keep(1000, 0)).code);
    }
}
