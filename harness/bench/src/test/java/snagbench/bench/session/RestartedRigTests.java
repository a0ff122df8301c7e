package snagbench.bench.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.Answer;
import snagbench.wire.CborReader;
import snagbench.wire.Do;
import snagbench.wire.FrameReader;
import snagbench.wire.Open;
import snagbench.wire.Record;
import snagbench.wire.Refusal;
import snagbench.wire.Request;
import snagbench.wire.RequestBody;
import snagbench.wire.ResetCause;
import snagbench.wire.Watch;
import snagbench.wire.Wire;

/** A controller that restarts in mid-script: the session sees it, and nothing of before can move the machine after. */
class RestartedRigTests {
    private static final int NONCE = 77;
    private static final int OTHER_NONCE = 78;

    private final Tap line = new Tap(Shuttle.link("weak-battery"));
    private RigSession session = session();
    private int oldBoot;

    private RigSession session() {
        try {
            return RigSession.open(
                    line, SessionSettings.usual(NONCE, 500, () -> false), Optional.of(Shuttle.description()));
        } catch (SessionException e) {
            throw new AssertionError(e);
        }
    }

    @BeforeEach
    void jamUntilTheBatterySags() throws SessionException {
        oldBoot = session.hello().boot;
        session.loadGuards(Shuttle.file().guards());
        session.makeReady(Shuttle.file().ready().orElseThrow(), false);
        TraceRecorder recorder = session.arm(Shuttle.script("obstacle-in-the-way"), 1);
        long latest = session.nowMicros() + 10_000_000;
        while (session.restart().isEmpty() && session.nowMicros() < latest) {
            session.work(session.nowMicros() + 100_000);
        }
        assertEquals(Optional.of(ResetCause.BROWN_OUT), session.restart());
        assertEquals(
                Optional.of(ResetCause.BROWN_OUT), recorder.trace().restart().map(restart -> restart.cause()));
    }

    @Test
    void theSessionSendsNothingMoreByItselfWhateverPasses() throws Exception {
        int sent = line.sent().size();
        long until = session.nowMicros() + 5_000_000;
        while (session.nowMicros() < until) {
            session.work(until);
        }

        assertEquals(sent, line.sent().size(), "no renewal, no repeat");
    }

    @Test
    void whateverIsAskedOfItNowFailsAndIsRefusedByTheRig() {
        SessionException refused = assertThrows(
                SessionException.class,
                () -> session.makeReady(Shuttle.file().ready().orElseThrow(), false));

        assertEquals(SessionException.Reason.RESTARTED, refused.reason());
        assertTrue(refused.getMessage().contains("restarted (brown-out)"), refused.getMessage());
    }

    @Test
    void everyRequestOfBeforeIsRefusedWhenItComesAgainAndNothingMoves() throws Exception {
        List<byte[]> before = line.sent();
        RawLine raw = new RawLine(line);
        List<Request> requests = new ArrayList<>();
        for (byte[] frame : before) {
            Request request = decoded(frame);
            if (request.body instanceof Open) {
                continue;
            }
            assertEquals(oldBoot, request.boot);
            requests.add(request);
            raw.send(frame);
            Answer answer = raw.answer(NONCE, request.number);
            assertEquals(Refusal.OTHER_BOOT.code(), answer.code, () -> "request " + request.body.type());
            raw.forget();
        }
        assertTrue(requests.size() > 10, "a whole program, its arming and its renewals are among them");
        standsStill(raw);
    }

    private static Request decoded(byte[] frame) {
        FrameReader reader = new FrameReader(4096);
        for (byte next : frame) {
            if (reader.accept(next)) {
                CborReader payload = reader.payload();
                Request request = Request.read(payload);
                if (request != null) {
                    return request;
                }
            }
        }
        throw new AssertionError("no request in a frame that the harness sent");
    }

    /** Another session looks on: disarmed, no override, no motion. */
    private static void standsStill(RawLine raw) throws Exception {
        raw.send(OTHER_NONCE, 0, 1, new Open(Wire.VERSION, Wire.VERSION));
        raw.listen(100_000);
        int newBoot = raw.lastHello().boot;
        RequestBody watch = new Watch(
                1,
                0,
                IntStream.range(0, Shuttle.description().channels().size()).toArray());
        assertEquals(0, raw.ask(OTHER_NONCE, newBoot, 2, watch).code);
        raw.listen(1_000_000);
        int position =
                Shuttle.description().channel("reach.position").orElseThrow().index();
        int command =
                Shuttle.description().channel("reach.command").orElseThrow().index();
        int step = Shuttle.description().step().orElseThrow().index();
        List<Record> records = raw.records();
        assertTrue(records.size() > 100, "it was looked at");
        int first = records.get(0).real(position);
        for (Record one : records) {
            assertEquals(0, one.flags & (Record.ARMED | Record.LEASED));
            assertEquals(0, one.active);
            assertEquals(0, one.forced);
            assertEquals(0, one.real(command), "no drive");
            assertEquals(0, one.real(step), "step STOPPED");
            assertTrue(Math.abs(one.real(position) - first) <= 1, "stands at " + first);
        }
    }

    @Test
    void anOldRequestUnderTheNewBootsNameIsOfAnotherSession() throws Exception {
        RawLine raw = new RawLine(line);
        raw.send(OTHER_NONCE, 0, 1, new Open(Wire.VERSION, Wire.VERSION));
        raw.listen(100_000);
        int newBoot = raw.lastHello().boot;

        assertNotEquals(oldBoot, newBoot);
        Do ready = new Do(
                Do.COMMAND, Shuttle.description().channel("ready").orElseThrow().index(), 1);
        assertEquals(Refusal.OTHER_SESSION.code(), raw.ask(NONCE, newBoot, 999, ready).code);
        assertEquals(
                Refusal.NO_LEASE.code(), raw.ask(OTHER_NONCE, newBoot, 2, ready).code, "and without a lease, none");
    }

    @Test
    void anotherSessionFindsTheRigWell() throws Exception {
        RigSession next = RigSession.open(
                line, SessionSettings.usual(OTHER_NONCE, 500, () -> false), Optional.of(Shuttle.description()));
        next.loadGuards(Shuttle.file().guards());
        next.makeReady(Shuttle.file().ready().orElseThrow(), false);

        assertTrue(next.restart().isEmpty());
        assertEquals(ResetCause.BROWN_OUT, ResetCause.of(next.hello().cause));
    }
}
