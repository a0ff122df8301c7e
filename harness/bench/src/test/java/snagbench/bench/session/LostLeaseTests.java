package snagbench.bench.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;

/** A lease that runs out while a script is loaded is named as the reason, and not what follows from it. */
class LostLeaseTests {
    private static final int LEASE_MILLIS = 500;
    private static final int ROOM = 4096;

    /** Holds one request back for longer than the lease, and loses all that the rig says in that time. */
    private static final class Stalled implements PassingLink {
        private final Link line = Shuttle.link("standard");
        private int passed;
        private int stallsAt = Integer.MAX_VALUE;

        void stallAtRequest(int number) {
            passed = 0;
            stallsAt = number;
        }

        @Override
        public void send(byte[] bytes, int length) throws LinkException {
            if (++passed == stallsAt) {
                long until = nowMicros() + LEASE_MILLIS * 1000L + 200_000;
                while (nowMicros() < until) {
                    line.receive(new byte[ROOM], until);
                }
            }
            line.send(bytes, length);
        }

        @Override
        public Link line() {
            return line;
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 6})
    void itIsToldEvenWhereTheEventOfItWasLost(int request) throws Exception {
        Stalled line = new Stalled();
        RigSession session = RigSession.open(
                line, SessionSettings.usual(1, LEASE_MILLIS, () -> false), Optional.of(Shuttle.description()));
        session.loadGuards(Shuttle.file().guards());
        session.makeReady(Shuttle.file().ready().orElseThrow(), false);
        line.stallAtRequest(request);

        SessionException refused =
                assertThrows(SessionException.class, () -> session.arm(Shuttle.script("reach-blocked-midway"), 1));

        assertEquals(SessionException.Reason.REFUSED, refused.reason());
        assertTrue(
                refused.getMessage().contains("its lease of 500 ms ran out before that, so it has stopped, latched"),
                refused.getMessage());
    }
}
