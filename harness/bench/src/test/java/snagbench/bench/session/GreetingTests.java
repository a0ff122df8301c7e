package snagbench.bench.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;
import snagbench.bench.link.VirtualLink;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.Hello;
import snagbench.wire.Keep;
import snagbench.wire.MessageType;
import snagbench.wire.Open;
import snagbench.wire.Record;
import snagbench.wire.Reply;
import snagbench.wire.Request;
import snagbench.wire.ResetCause;

/** Greeting boards that restart when their port is opened, are busy, or cannot be understood. Time is the plant's. */
class GreetingTests {
    private static final long BOARD = SessionSettings.BOARD_GREETING_MICROS;

    private final VirtualLink link = Shuttle.link("standard");

    private static SessionSettings settings(int nonce, long busyMicros) {
        return SessionSettings.usual(nonce, 500, () -> false).withGreeting(BOARD, busyMicros);
    }

    private static RigSession open(Link line, long busyMicros) throws SessionException {
        return RigSession.open(line, settings(5, busyMicros), Optional.of(Shuttle.description()));
    }

    /** Neither hears nor says anything for a time: its boot loader runs. */
    private record Deaf(VirtualLink line, long untilMicros) implements PassingLink {
        @Override
        public void send(byte[] bytes, int length) throws LinkException {
            if (nowMicros() >= untilMicros) {
                line.send(bytes, length);
            }
        }

        @Override
        public int receive(byte[] into, long until) throws LinkException {
            int bytes = line.receive(into, until);
            return nowMicros() < untilMicros ? 0 : bytes;
        }
    }

    @Test
    void aBoardThatStartsForSecondsIsAskedUntilItHears() throws Exception {
        RigSession session = open(new Deaf(link, 4_900_000), 0);

        assertTrue(session.nowMicros() >= 4_900_000, () -> "at " + session.nowMicros());
        assertEquals(5, session.hello().session);
    }

    @Test
    void oneThatNeverHearsIsSilentAfterTheTimeForBoards() {
        SessionException silent = assertThrows(SessionException.class, () -> open(new Deaf(link, Long.MAX_VALUE), 0));

        assertEquals(SessionException.Reason.SILENT, silent.reason());
        assertTrue(
                silent.getMessage().contains("not one byte came: is it the right port and speed"), silent.getMessage());
        assertTrue(link.nowMicros() >= BOARD && link.nowMicros() < BOARD + 500_000, () -> "at " + link.nowMicros());
    }

    /** The greeting at the start, which nobody asked for, is the sign that it hears now. */
    @Test
    void theUnaskedGreetingIsAnsweredAtOnce() throws Exception {
        Tap tap = new Tap(link);
        RigSession session = open(tap, 0);

        List<byte[]> opens =
                tap.sent().stream().filter(GreetingTests::asksToOpen).toList();
        assertEquals(2, opens.size(), "before it started, and when it had");
        assertTrue(Arrays.equals(opens.get(0), opens.get(1)), "the same request");
        assertTrue(
                session.nowMicros() < 250_000, () -> "before the time for an answer was over: " + session.nowMicros());
    }

    private static boolean asksToOpen(byte[] frame) {
        FrameReader reader = new FrameReader(4096);
        boolean asks = false;
        for (byte one : frame) {
            if (reader.accept(one)) {
                Request request = Request.read(reader.payload());
                asks = request != null && request.body.type() == MessageType.OPEN;
            }
        }
        return asks;
    }

    /** Once, after some frames from the rig, a greeting that tells of a restart is put between. */
    private static final class RestartsOnce implements PassingLink {
        private final VirtualLink line;
        private final int afterFrames;
        private int frames;
        private boolean done;

        RestartsOnce(VirtualLink line, int afterFrames) {
            this.line = line;
            this.afterFrames = afterFrames;
        }

        @Override
        public Link line() {
            return line;
        }

        @Override
        public int receive(byte[] into, long until) throws LinkException {
            if (frames >= afterFrames && !done) {
                done = true;
                FrameWriter writer = new FrameWriter(256);
                greeting(77).write(writer.begin());
                assertTrue(writer.end());
                System.arraycopy(writer.frame(), 0, into, 0, writer.length());
                return writer.length();
            }
            int bytes = line.receive(into, until);
            for (int i = 0; i < bytes; i++) {
                frames += into[i] == 0 ? 1 : 0;
            }
            return bytes;
        }

        private static Reply greeting(int boot) {
            return new Hello(0, 0, 1, boot, ResetCause.EXTERNAL.code(), 0, 1, 1, 1, 0, 1, 1, 1, 1, 8, 64, 1, 0, "x");
        }
    }

    @Test
    void aBoardThatRestartsOnceMoreWhileItIsAskedForItsDescriptionIsGreetedAnew() throws Exception {
        RestartsOnce line = new RestartsOnce(link, 6);
        RigSession session = RigSession.open(line, settings(5, 0), Optional.empty());

        assertTrue(line.done);
        assertEquals(Shuttle.description().channels(), session.description().channels());
        assertEquals(Optional.empty(), session.restart());
    }

    @Test
    void aRigThatIsBusyIsWaitedForIfThatIsWantedAndNotOtherwise() throws Exception {
        RawLine other = new RawLine(link);
        other.listen(200_000);
        other.send(9, 0, 1, new Open(1, 1));
        other.listen(100_000);
        assertEquals(0, other.ask(9, other.lastHello().boot, 2, new Keep(3000, 0)).code);
        long taken = link.nowMicros();

        SessionException busy = assertThrows(SessionException.class, () -> open(link, 0));
        assertTrue(busy.getMessage().contains("another harness has it"), busy.getMessage());
        RigSession session = open(link, 10_000_000);

        assertTrue(session.nowMicros() - taken >= 3_000_000, () -> "after " + (session.nowMicros() - taken));
        session.releaseLatch();
        session.makeReady(Shuttle.file().ready().orElseThrow(), true);
    }

    @Test
    void aRigThatStaysBusyIsNotWaitedForForEver() throws Exception {
        RawLine other = new RawLine(link);
        other.listen(200_000);
        other.send(9, 0, 1, new Open(1, 1));
        other.listen(100_000);
        assertEquals(0, other.ask(9, other.lastHello().boot, 2, new Keep(9000, 0)).code);
        long taken = link.nowMicros();

        SessionException busy = assertThrows(SessionException.class, () -> open(link, 2_000_000));

        assertTrue(busy.getMessage().contains("another harness has it"), busy.getMessage());
        assertTrue(link.nowMicros() - taken < 3_000_000, () -> "after " + (link.nowMicros() - taken));
    }

    @Test
    void twoSecondsOfWhatNobodyCanReadAreEnough() {
        PassingLink noise = new PassingLink() {
            @Override
            public Link line() {
                return link;
            }

            @Override
            public int receive(byte[] into, long until) throws LinkException {
                link.receive(into, Math.min(until, nowMicros() + 100_000));
                Arrays.fill(into, 0, 10, (byte) 0x55);
                return 10;
            }
        };
        SessionException unreadable = assertThrows(SessionException.class, () -> open(noise, 0));

        assertTrue(unreadable.getMessage().contains("is the baud rate right?"), unreadable.getMessage());
        assertTrue(link.nowMicros() >= 2_000_000 && link.nowMicros() < 2_500_000, () -> "at " + link.nowMicros());
    }

    /** Everything that the rig says unasked is lost, its greeting after a restart too. */
    @Test
    void aRestartWhoseGreetingWasLostIsKnownByTheRefusalOfTheNextRequest() throws Exception {
        VirtualLink weak = Shuttle.link("weak-battery");
        RigSession session = RigSession.open(new WithoutGreetings(weak), settings(5, 0), Optional.empty());
        session.loadGuards(Shuttle.file().guards());
        session.makeReady(Shuttle.file().ready().orElseThrow(), false);
        session.arm(Shuttle.script("obstacle-in-the-way"), 1);
        long latest = session.nowMicros() + 10_000_000;
        while (session.restart().isEmpty() && session.nowMicros() < latest) {
            session.work(session.nowMicros() + 100_000);
        }

        assertEquals(Optional.of(ResetCause.UNKNOWN), session.restart());
    }

    private record WithoutGreetings(VirtualLink line) implements PassingLink {
        @Override
        public int receive(byte[] into, long until) throws LinkException {
            byte[] chunk = new byte[into.length];
            int bytes = line.receive(chunk, until);
            FrameReader reader = new FrameReader(4096);
            FrameWriter writer = new FrameWriter(4096);
            int given = 0;
            for (int i = 0; i < bytes; i++) {
                if (reader.accept(chunk[i])) {
                    Reply reply = Reply.read(reader.payload());
                    if (reply != null && !(reply instanceof Hello hello && hello.session == 0)) {
                        reply.write(writer.begin());
                        assertTrue(writer.end());
                        System.arraycopy(writer.frame(), 0, into, given, writer.length());
                        given += writer.length();
                    }
                }
            }
            return given;
        }
    }

    /** Two seconds pass before a message is sent; what the rig says meanwhile waits in the port. */
    private static final class Pausing implements PassingLink {
        private final VirtualLink line;
        private final ByteArrayOutputStream lying = new ByteArrayOutputStream();
        private int sendsToPause = -1;

        Pausing(VirtualLink line) {
            this.line = line;
        }

        @Override
        public Link line() {
            return line;
        }

        @Override
        public void send(byte[] bytes, int length) throws LinkException {
            sendsToPause--;
            if (sendsToPause == 0) {
                byte[] chunk = new byte[4096];
                long until = nowMicros() + 2_000_000;
                while (nowMicros() < until) {
                    lying.write(chunk, 0, line.receive(chunk, until));
                }
            }
            line.send(bytes, length);
        }

        @Override
        public int receive(byte[] into, long until) throws LinkException {
            if (lying.size() == 0) {
                return line.receive(into, until);
            }
            byte[] all = lying.toByteArray();
            int given = Math.min(all.length, into.length);
            System.arraycopy(all, 0, into, 0, given);
            lying.reset();
            lying.write(all, given, all.length - given);
            return given;
        }
    }

    /** This process was kept from running in the midst of loading: the rig has dropped what it had of the script. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 6})
    void aLeaseThatRanOutWhileAScriptWasLoadedIsNamed(int message) throws Exception {
        Pausing line = new Pausing(link);
        RigSession session = open(line, 0);
        session.loadGuards(Shuttle.file().guards());
        session.makeReady(Shuttle.file().ready().orElseThrow(), false);
        line.sendsToPause = message;

        SessionException lost =
                assertThrows(SessionException.class, () -> session.arm(Shuttle.script("reach-blocked-midway"), 1));

        assertTrue(lost.getMessage().contains("its lease of 500 ms ran out"), lost.getMessage());
        assertFalse(lost.getMessage().contains("field"), lost.getMessage());
    }

    @Test
    void aClosedSessionHasLetGo() throws Exception {
        RigSession session = open(link, 0);
        session.loadGuards(Shuttle.file().guards());
        session.makeReady(Shuttle.file().ready().orElseThrow(), false);
        session.arm(Shuttle.script("reach-blocked-midway"), 1);

        session.close();
        session.close();

        RawLine raw = new RawLine(link);
        raw.listen(100_000);
        List<Record> records = raw.records();
        assertFalse(records.isEmpty());
        assertEquals(
                0,
                records.get(records.size() - 1).flags
                        & (Record.ARMED | Record.LEASED | Record.LATCHED | Record.STOPPING));
    }
}
