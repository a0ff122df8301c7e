package snagbench.bench.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.OptionalLong;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import snagbench.bench.link.Link;
import snagbench.probe.VirtualRig;
import snagbench.virtualrig.controller.LineRate;
import snagbench.virtualrig.shuttle.SeedlingShuttle;
import snagbench.wire.Record;

/** What came of the records of a real probe, of which a test takes away some. */
class ReceptionTests {
    private final Reception reception = new Reception();

    private void listen(RigSession session, long micros) throws SessionException {
        long until = session.nowMicros() + micros;
        while (session.nowMicros() < until) {
            session.work(until);
        }
    }

    private static RigSession open(Link line) throws SessionException {
        return RigSession.open(line, SessionSettings.usual(1, 500, () -> false), Optional.of(Shuttle.description()));
    }

    @Test
    void countsWhatIsMissingBetweenThoseThatCame() throws Exception {
        RigSession session = open(Shuttle.link("standard"));
        SplittableRandom random = new SplittableRandom(8);
        int[] taken = new int[1];
        Record[] newest = new Record[1];
        session.observe(part -> {
            // A long record comes in parts; of some ticks none of them comes.
            if (part.first != 0 || random.nextInt(10) == 0) {
                return;
            }
            reception.accept(part);
            taken[0] += newest[0] == null ? 0 : part.tick - newest[0].tick - 1;
            newest[0] = part;
        });
        listen(session, 3_000_000);

        assertTrue(taken[0] > 20, () -> taken[0] + " taken away");
        assertEquals(taken[0], reception.missing());
        assertEquals(0, reception.dropped());
        assertTrue(reception.records() > 400, () -> reception.records() + " came");
        long mean = reception.meanLoopMicros().orElseThrow();
        assertTrue(Math.abs(mean - 5100) <= 20, () -> "lost ones count in the mean: " + mean);
        assertTrue(reception.longestLoopMicros().orElseThrow() <= 5200, "and a gap is no long loop");
    }

    @Test
    void doesNotCountWhatWasNotLookedAt() throws Exception {
        RigSession session = open(Shuttle.link("standard"));
        session.observe(reception);
        listen(session, 500_000);
        session.observe(part -> {});
        listen(session, 500_000);
        reception.lookAway();
        session.observe(reception);
        listen(session, 500_000);

        assertEquals(0, reception.missing());
        assertTrue(Math.abs(reception.records() - 196) <= 6, () -> reception.records() + " came");
    }

    /** At 38400 baud, 200 records a second have no room on the line. */
    @Test
    void tellsWhichTheRigCouldNotSend() throws Exception {
        VirtualRig slow = new SeedlingShuttle().create("standard", LineRate.serial(38_400, 512));
        RigSession session =
                open(new snagbench.bench.link.VirtualLink("slow", slow, new snagbench.bench.link.RigWatch()));
        session.observe(reception);
        listen(session, 3_000_000);

        assertTrue(reception.dropped() > 100, () -> reception.dropped() + " dropped");
        assertEquals(reception.missing(), reception.dropped());
        assertTrue(reception.records() > 50, () -> reception.records() + " came");
    }

    @Test
    void knowsNothingBeforeAnythingCame() {
        assertEquals(0, reception.records() + reception.missing() + reception.dropped());
        assertEquals(OptionalLong.empty(), reception.medianLoopMicros());
        assertEquals(OptionalLong.empty(), reception.meanLoopMicros());
        assertEquals(OptionalLong.empty(), reception.longestLoopMicros());
        assertEquals(OptionalLong.empty(), reception.shortestLoopMicros());
    }
}
