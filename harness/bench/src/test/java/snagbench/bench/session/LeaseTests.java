package snagbench.bench.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.script.FaultScript;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.Arm;
import snagbench.wire.EntryEnd;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Keep;
import snagbench.wire.Record;
import snagbench.wire.Refusal;
import snagbench.wire.StopReason;

/** What becomes of a machine whose harness is gone, and who may have it when. */
class LeaseTests {
    private static final int LEASE_MILLIS = 500;
    /** Loop time at its longest, and a little: the rig looks at its lease once a tick. */
    private static final int TICK_MICROS = 5_300;

    private final VirtualLink link = Shuttle.link("standard");

    private RigSession open(int nonce) throws SessionException {
        return RigSession.open(
                link, SessionSettings.usual(nonce, LEASE_MILLIS, () -> false), Optional.of(Shuttle.description()));
    }

    private RigSession ready(int nonce) throws SessionException {
        RigSession session = open(nonce);
        session.loadGuards(Shuttle.file().guards());
        session.makeReady(Shuttle.file().ready().orElseThrow(), false);
        return session;
    }

    /** The override stays on far longer than the lease. */
    private static FaultScript script() throws Exception {
        return Shuttle.script("long drag", "FS-01", """
                inject:
                  - name: drags
                    when: { step: REACHING, reach.position: at least 20 mm }
                    channels:
                      reach.current: offset 0.5 A
                    lasts: 20 s
                expect:
                  - must-not-fire: FS-01
                end: 20 s after drags
                """);
    }

    /** Armed, and the override is on; from now on nobody renews. */
    private RawLine abandoned() throws Exception {
        RigSession session = ready(1);
        TraceRecorder recorder = session.arm(script(), 1);
        while (recorder.trace().rows() == 0 || isWithoutOverride(recorder.trace())) {
            session.work(session.nowMicros() + 10_000);
        }
        return new RawLine(link);
    }

    private static boolean isWithoutOverride(Trace trace) {
        return (trace.active(trace.rows() - 1) & 1 << 2) == 0;
    }

    private static List<Event> of(RawLine raw, EventKind kind) {
        return raw.events().stream().filter(one -> one.kind == kind.code()).toList();
    }

    @Test
    void whenNobodyRenewsTheRigStopsLatchesAndOnlyThenDropsTheOverride() throws Exception {
        RawLine raw = abandoned();
        long gone = link.nowMicros();

        raw.listen(2_000_000);

        List<Record> records = raw.records();
        Record first = records.get(0);
        Record lost = records.stream()
                .filter(one -> (one.flags & Record.LATCHED) != 0)
                .findFirst()
                .orElseThrow();
        int after = lost.micros - first.micros;
        assertTrue(
                after <= LEASE_MILLIS * 1000 + TICK_MICROS,
                () -> "stops " + after + " us after it was left alone at " + gone);
        assertTrue(after >= LEASE_MILLIS * 1000 * 3 / 4 - TICK_MICROS, () -> "and not before: " + after);
        int stopping = 0;
        for (Record one : records) {
            boolean isBefore = one.tick - lost.tick < 0;
            boolean isStopping = (one.flags & Record.STOPPING) != 0;
            assertEquals(isBefore || isStopping, one.active != 0, "override on, tick " + one.tick);
            assertEquals(!isBefore, (one.flags & Record.LATCHED) != 0, "latched, tick " + one.tick);
            stopping += isStopping ? 1 : 0;
        }
        assertTrue(stopping > 1, "the stop took its time");
        Record last = records.get(records.size() - 1);
        assertEquals(Record.LATCHED, last.flags & (Record.LATCHED | Record.ARMED | Record.STOPPING | Record.LEASED));
        int position =
                Shuttle.description().channel("reach.position").orElseThrow().index();
        assertEquals(last.real(position), records.get(records.size() - 20).real(position), "it stands");
        eventsTellTheOrder(raw);
    }

    private static void eventsTellTheOrder(RawLine raw) {
        List<Event> stops = of(raw, EventKind.STOP);
        assertEquals(2, stops.stream().map(one -> one.number).distinct().count(), "begun and done");
        Event begun = stops.get(0);
        Event done = stops.stream().filter(one -> one.b != begun.b).findFirst().orElseThrow();
        assertEquals(StopReason.LEASE.code(), begun.a);
        assertTrue(done.tick - begun.tick > 0, "takes ticks");
        Event off = of(raw, EventKind.ENTRY_OFF).stream()
                .filter(one -> one.b == EntryEnd.RELEASED.code())
                .findFirst()
                .orElseThrow();
        assertTrue(off.number - begun.number > 0, "released behind the stop's beginning");
        assertTrue(off.tick - done.tick >= 0, () -> "released in tick " + off.tick + ", stopped in tick " + done.tick);
    }

    @Test
    void afterThatNothingIsArmedUntilTheLatchIsReleased() throws Exception {
        abandoned().listen(2_000_000);
        RigSession next = open(2);
        next.loadGuards(Shuttle.file().guards());
        SessionException refused = assertThrows(SessionException.class, () -> next.arm(script(), 1));

        assertEquals(SessionException.Reason.LATCHED, refused.reason());
        assertTrue(refused.getMessage().contains("a stop is latched (the lease ran out)"), refused.getMessage());

        next.letGo();
        RigSession another = open(3);
        another.loadGuards(Shuttle.file().guards());
        another.makeReady(Shuttle.file().ready().orElseThrow(), true);
        TraceRecorder recorder = another.arm(script(), 1);
        another.work(another.nowMicros() + 100_000);
        assertEquals(0, recorder.trace().flags(0) & Record.LATCHED);
        assertNotEquals(0, recorder.trace().flags(0) & Record.ARMED);
    }

    @Test
    void aSessionThatWorksKeepsItsLeaseHoweverLong() throws Exception {
        RigSession session = ready(1);
        TraceRecorder recorder = session.arm(script(), 1);
        long until = session.nowMicros() + 10_000_000;
        while (session.nowMicros() < until) {
            session.work(until);
        }

        Trace trace = recorder.trace();
        assertTrue(trace.micros(trace.rows() - 1) > 9_000_000);
        for (int row = 0; row < trace.rows(); row++) {
            assertEquals(Record.LEASED, trace.flags(row) & (Record.LEASED | Record.LATCHED), "row " + row);
        }
        assertFalse(session.letGo(), "nothing is latched");
    }

    @Test
    void anotherHarnessIsToldThatTheRigIsTaken() throws Exception {
        RigSession holder = ready(1);
        TraceRecorder recorder = holder.arm(script(), 1);

        SessionException refused = assertThrows(SessionException.class, () -> open(2));

        assertEquals(SessionException.Reason.REFUSED, refused.reason());
        assertTrue(
                refused.getMessage().matches(".*another harness has it; its lease lives for \\d+ ms more"),
                refused.getMessage());
        holder.work(holder.nowMicros() + 100_000);
        Trace trace = recorder.trace();
        assertNotEquals(0, trace.flags(trace.rows() - 1) & Record.ARMED, "the holder's script goes on");
        holder.letGo();
        assertEquals(holder.hello().boot, open(3).hello().boot, "and once it has let go, the rig is free");
    }

    @Test
    void afterAnotherSessionHasOpenedTheOldOneArmsNothing() throws Exception {
        RigSession old = open(1);
        old.loadGuards(Shuttle.file().guards());
        RigSession next = open(2);

        SessionException refused = assertThrows(SessionException.class, () -> old.arm(script(), 1));

        assertEquals(SessionException.Reason.REFUSED, refused.reason());
        assertTrue(refused.getMessage().contains("it is in another session"), refused.getMessage());
        next.loadGuards(Shuttle.file().guards());
        next.makeReady(Shuttle.file().ready().orElseThrow(), false);
        TraceRecorder recorder = next.arm(script(), 1);
        next.work(next.nowMicros() + 100_000);
        assertNotEquals(0, recorder.trace().flags(0) & Record.ARMED, "the new one can");
    }

    @Test
    void thePartsOfAScriptThatAnotherSessionLoadedAreNotArmed() throws Exception {
        RawLine raw = new RawLine(link);
        RigSession loader = open(1);
        int boot = loader.hello().boot;
        RigProgram program = ProgramCompiler.compile(script());
        int number = 100;
        for (var part : program.messages()) {
            assertEquals(0, raw.ask(1, boot, number++, part).code);
        }
        open(2);

        assertEquals(0, raw.ask(2, boot, 200, new Keep(LEASE_MILLIS, 0)).code);
        var armed = raw.ask(
                2, boot, 201, new Arm(program.entries(), program.digest(), 0, RigProgram.digestOf(List.of()), 1));

        assertEquals(Refusal.MISMATCH.code(), armed.code);
    }
}
