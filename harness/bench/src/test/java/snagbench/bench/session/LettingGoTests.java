package snagbench.bench.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.Record;

/** Letting go: waits as long as a safe stop may take, is confirmed or is said not to be, and hears nobody cancel. */
class LettingGoTests {
    /** Nothing that the rig says comes through for a time. */
    private static final class Muffled implements PassingLink {
        private final VirtualLink line;
        private long untilMicros;

        Muffled(VirtualLink line) {
            this.line = line;
        }

        void forMicros(long micros) {
            untilMicros = nowMicros() + micros;
        }

        @Override
        public int receive(byte[] into, long until) throws LinkException {
            int bytes = line.receive(into, until);
            return nowMicros() < untilMicros ? 0 : bytes;
        }

        @Override
        public Link line() {
            return line;
        }
    }

    private final Muffled line = new Muffled(Shuttle.link("standard"));
    private boolean cancelled;

    private RigSession armed() throws SessionException {
        RigSession session = RigSession.open(
                line, SessionSettings.usual(1, 5000, () -> cancelled), Optional.of(Shuttle.description()));
        session.loadGuards(Shuttle.file().guards());
        session.makeReady(Shuttle.file().ready().orElseThrow(), false);
        TraceRecorder recorder = session.arm(Shuttle.script("reach-blocked-midway"), 1);
        long until = session.nowMicros() + 700_000;
        while (session.nowMicros() < until) {
            session.work(until);
        }
        assertEquals(
                Record.ARMED, recorder.trace().flags(recorder.trace().rows() - 1) & (Record.ARMED | Record.STOPPING));
        return session;
    }

    @Test
    void anAnswerThatComesOnlyAfterSecondsIsStillTheConfirmation() throws Exception {
        RigSession session = armed();
        line.forMicros(4_000_000);

        assertFalse(session.letGo());
    }

    @Test
    void noAnswerAtAllIsSaidToBeNoneWithinTheTimeOfAStop() throws Exception {
        RigSession session = armed();
        long asked = session.nowMicros();
        line.forMicros(60_000_000);

        SessionException silent = assertThrows(SessionException.class, session::letGo);

        assertEquals(SessionException.Reason.SILENT, silent.reason());
        long waited = session.nowMicros() - asked;
        assertTrue(waited >= SessionSettings.USUAL_STOP_MICROS, () -> "waited " + waited + " us");
        assertTrue(waited <= SessionSettings.USUAL_STOP_MICROS * 3 / 2, () -> "waited " + waited + " us");
    }

    @Test
    void whoCancelsStillGetsTheSafeStop() throws Exception {
        RigSession session = armed();
        cancelled = true;

        SessionException stopped =
                assertThrows(SessionException.class, () -> session.work(session.nowMicros() + 100_000));
        assertEquals(SessionException.Reason.CANCELLED, stopped.reason());
        session.letGo();

        RawLine raw = new RawLine(line);
        raw.listen(500_000);
        assertFalse(raw.records().isEmpty());
        int position =
                Shuttle.description().channel("reach.position").orElseThrow().index();
        int first = raw.records().get(0).real(position);
        for (Record one : raw.records()) {
            assertEquals(0, one.flags & (Record.ARMED | Record.LEASED | Record.LATCHED));
            assertEquals(0, one.active);
            assertTrue(Math.abs(one.real(position) - first) <= 1, "it stands");
        }
    }
}
