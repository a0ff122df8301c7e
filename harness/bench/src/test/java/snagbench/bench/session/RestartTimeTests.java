package snagbench.bench.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.trace.Restart;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.ResetCause;

/** When a restart was, by the host's clock, though the rig's clock runs slower than that. */
class RestartTimeTests {
    private static final int LEASE_MILLIS = 500;

    /** What the virtual shuttle's controller takes to start, and somewhat more, on its own clock. */
    private static final long START_MICROS = 80_000;

    /** A host whose clock runs faster than the rig's: an emulated controller on a busy computer. */
    private record HastyHost(Link rig, int times) implements Link {
        @Override
        public long nowMicros() {
            return rig.nowMicros() * times;
        }

        @Override
        public void send(byte[] bytes, int length) throws LinkException {
            rig.send(bytes, length);
        }

        @Override
        public int receive(byte[] into, long untilMicros) throws LinkException {
            return rig.receive(into, untilMicros / times);
        }

        @Override
        public String name() {
            return rig.name();
        }

        @Override
        public void close() {
            rig.close();
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 5})
    void isCountedFromTheLastAnswerAndNotFromArming(int times) throws Exception {
        Link host = new HastyHost(Shuttle.link("weak-battery"), times);
        RigSession session = RigSession.open(
                host, SessionSettings.usual(77, LEASE_MILLIS, () -> false), Optional.of(Shuttle.description()));
        session.loadGuards(Shuttle.file().guards());
        session.makeReady(Shuttle.file().ready().orElseThrow(), false);
        TraceRecorder recorder = session.arm(Shuttle.script("obstacle-in-the-way"), 1);
        long armed = session.nowMicros();
        long latest = armed + 10_000_000L * times;
        while (session.restart().isEmpty() && session.nowMicros() < latest) {
            session.work(session.nowMicros() + 100_000);
        }
        long byTheHost = session.nowMicros() - armed;

        Trace trace = recorder.trace();
        Restart restart = trace.restart().orElseThrow();
        long last = trace.micros(trace.rows() - 1);
        long told = restart.noLaterMicros().orElseThrow();
        assertEquals(ResetCause.BROWN_OUT, restart.cause());
        assertTrue(byTheHost > (last - 100_000) * times, byTheHost + " us passed at the host");
        assertTrue(told > last, "said to have been by " + told + ", heard at " + last);
        // The lease is renewed four times while it lives; the host's clock counts from the newest renewal only.
        long atMost = LEASE_MILLIS * 1000L / 4 + START_MICROS * times;
        assertTrue(told - last < atMost, "said to have been by " + told + ", heard until " + last);
    }
}
