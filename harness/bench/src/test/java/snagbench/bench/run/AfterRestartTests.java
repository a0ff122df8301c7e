package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import org.junit.jupiter.api.Test;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Expectation.Window;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Place;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stretch;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionSettings;
import snagbench.bench.session.Shuttle;
import snagbench.bench.session.Tap;
import snagbench.bench.trace.Restart;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceFile;
import snagbench.bench.trace.TraceHeader;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.CborReader;
import snagbench.wire.FrameReader;
import snagbench.wire.Open;
import snagbench.wire.Record;
import snagbench.wire.Request;
import snagbench.wire.RequestBody;
import snagbench.wire.ResetCause;
import snagbench.wire.Watch;

/** A script that expects a restart is listened to behind it, on the new boot's own clock, and nothing that moves is sent. */
class AfterRestartTests {
    private static final long SETTLING = 500_000;
    private static final FaultScript JAM = Shuttle.script("obstacle-in-the-way");
    private static final Place PLACE = JAM.place();
    private static final Anchor STRIKE = new Anchor.OfInjection(0, "obstacle");
    private static final Anchor RESTART = new Anchor.OfExpectation(0, "restarts");
    private static final Expectation RESTARTS =
            new Expectation.Restart(PLACE, "restarts", new Window(0, 5_000_000), STRIKE);
    private static final Condition STANDS = new Condition(
            PLACE,
            List.of(new Condition.Compares(
                    PLACE,
                    Shuttle.description().channel("reach.command").orElseThrow(),
                    Source.REAL,
                    Condition.Relation.IS,
                    0)));

    private static FaultScript script(Optional<FaultScript.End> end, Expectation... more) {
        List<Expectation> all = new ArrayList<>(List.of(RESTARTS));
        all.addAll(List.of(more));
        return new FaultScript(PLACE, "restarts", List.of(), "", Set.of(), JAM.begin(), JAM.injections(), all, end);
    }

    private static long end(Optional<FaultScript.End> end, Expectation... more) {
        return new AfterRestart(script(end, more)).endMicros(SETTLING);
    }

    @Test
    void whereNothingHangsOnTheRestartItIsTheSettlingTime() {
        assertEquals(SETTLING, end(Optional.empty()));
        assertEquals(
                SETTLING,
                end(Optional.empty(), new Expectation.Becomes(PLACE, "b", STANDS, new Window(0, 9_000_000), STRIKE)));
    }

    @Test
    void itIsTheLastWindowThatHangsOnTheRestartHoweverManyStepsAway() {
        Expectation becomes = new Expectation.Becomes(PLACE, "b", STANDS, new Window(0, 1_000_000), RESTART);
        Expectation stays = new Expectation.Stays(
                PLACE, "s", STANDS, 300_000, new Window(0, 200_000), new Anchor.OfExpectation(1, "b"));
        Expectation settles = new Expectation.Settles(
                PLACE, "t", STANDS, OptionalLong.of(40), new Window(0, 2), new Anchor.OfExpectation(2, "s"));

        assertEquals(1_000_000 + SETTLING, end(Optional.empty(), becomes));
        assertEquals(1_500_000 + SETTLING, end(Optional.empty(), becomes, stays));
        assertEquals(1_500_000 + SETTLING, end(Optional.empty(), becomes, stays, settles));
        assertEquals(
                2_000_000 + SETTLING,
                end(
                        Optional.empty(),
                        new Expectation.Always(
                                PLACE,
                                "a",
                                STANDS,
                                new Stretch(RESTART, Optional.of(new Window(300_000, 2_000_000)), Optional.empty()))));
    }

    @Test
    void anEndOfTheScriptsOwnBehindTheRestartNeedsNoSettlingTime() {
        Expectation becomes = new Expectation.Becomes(PLACE, "b", STANDS, new Window(0, 1_000_000), RESTART);

        assertEquals(700_000, end(Optional.of(new FaultScript.End(PLACE, 700_000, RESTART))));
        assertEquals(1_000_000, end(Optional.of(new FaultScript.End(PLACE, 700_000, RESTART)), becomes));
        assertEquals(1_000_000 + SETTLING, end(Optional.of(new FaultScript.End(PLACE, 9_000_000, STRIKE)), becomes));
    }

    @Test
    void theRigIsListenedToOnItsNewClockAndSentNothingThatMoves() throws Exception {
        Tap line = new Tap(Shuttle.link("weak-battery"));
        RigSession session = session(line, 7);
        session.makeReady(Shuttle.file().ready().orElseThrow(), false);
        FaultScript script = script(
                Optional.empty(), new Expectation.Becomes(PLACE, "b", STANDS, new Window(0, 1_000_000), RESTART));
        List<Trace> seen = new ArrayList<>();
        ScriptRun run = new ScriptRun(session, script, SETTLING, 30_000_000, micros -> {}, seen::add, Optional.empty());
        TraceRecorder recorder = session.arm(script, 1);
        run.listen(recorder);
        int sentBefore = line.sent().size();
        RigSession again = session(line, 8);
        again.recordAfterRestart(recorder);
        run.listenAfterRestart(again, recorder);

        Trace trace = run.toItsEnd(recorder.trace());
        Restart restart = trace.restart().orElseThrow();
        long last = trace.micros(trace.rows() - 1);
        assertEquals(ResetCause.BROWN_OUT, restart.cause());
        assertTrue(restart.noLaterMicros().orElseThrow() > last, restart + ", last record at " + last);
        Trace part = trace.afterRestart().orElseThrow();
        int rows = part.rows();
        assertTrue(part.tick(0) < trace.tick(trace.rows() - 1), "ticks count anew");
        assertTrue(part.micros(rows - 1) >= 1_500_000, () -> "to " + part.micros(part.rows() - 1));
        assertTrue(part.micros(rows - 2) < 1_500_000, "and no further");
        int command =
                Shuttle.description().channel("reach.command").orElseThrow().index();
        for (int row = 0; row < rows; row++) {
            assertEquals(0, part.flags(row) & (Record.ARMED | Record.LEASED));
            assertEquals(0, part.real(row, command));
        }
        isAllSeen(seen, trace);
        for (byte[] frame : line.sent().subList(sentBefore, line.sent().size())) {
            RequestBody body = body(frame);
            assertTrue(body instanceof Open || body instanceof Watch, () -> "sent " + body.type());
        }
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        TraceFile.write(new TraceHeader(TraceHeader.Origin.RUN, "restarts", 1, 0, ""), trace, bytes);
        Trace read =
                TraceFile.read(new ByteArrayInputStream(bytes.toByteArray())).trace();
        assertEquals(restart, read.restart().orElseThrow());
        assertEquals(rows, read.afterRestart().orElseThrow().rows());
    }

    /** What was shown along the way, in the end, is all of it. */
    private static void isAllSeen(List<Trace> seen, Trace trace) {
        Trace last = seen.get(seen.size() - 1);
        assertEquals(trace.rows(), last.rows());
        assertEquals(
                trace.afterRestart().orElseThrow().rows(),
                last.afterRestart().orElseThrow().rows());
    }

    private static RigSession session(Tap line, int nonce) throws Exception {
        return RigSession.open(
                line, SessionSettings.usual(nonce, 500, () -> false), Optional.of(Shuttle.description()));
    }

    private static RequestBody body(byte[] frame) {
        FrameReader reader = new FrameReader(4096);
        for (byte next : frame) {
            if (reader.accept(next)) {
                CborReader payload = reader.payload();
                Request request = Request.read(payload);
                if (request != null) {
                    return request.body;
                }
            }
        }
        throw new AssertionError("no request in a frame that the harness sent");
    }
}
