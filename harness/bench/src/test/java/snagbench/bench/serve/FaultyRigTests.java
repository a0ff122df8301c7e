package snagbench.bench.serve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.function.LongUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.probe.VirtualRig;
import snagbench.wire.FrameWriter;
import snagbench.wire.Open;
import snagbench.wire.Record;
import snagbench.wire.Request;
import snagbench.wire.Watch;

/** With the real shuttle at the other end, in this process. */
class FaultyRigTests {
    private static final long END = 1_500_000;

    private static long uncut(long now) {
        return now + END;
    }

    private static FaultyRig clean(int baud) {
        return new FaultyRig(Shuttle.create(), baud, LineFaults.NONE, 1);
    }

    /** Opens a session and has every tick recorded; gives all that came, with its times. */
    private static String drive(VirtualRig rig, LongUnaryOperator nextCut) {
        StringBuilder seen = new StringBuilder();
        byte[] buffer = new byte[4096];
        for (long at : new long[] {100_000, 200_001, 300_000, 400_007}) {
            runTo(rig, at, nextCut, seen, buffer);
            FrameWriter frame = new FrameWriter(256);
            // The first boot of the shuttle has the id 1; the open tells that too.
            Request request = at == 100_000
                    ? new Request(9, 0, 1, new Open(1, 1))
                    : new Request(9, 1, (int) (at / 100_000), new Watch(1, 0, 2, 5, 6));
            assertTrue(request.write(frame));
            rig.send(frame.frame(), 0, frame.length());
        }
        runTo(rig, END, nextCut, seen, buffer);
        return seen.toString();
    }

    private static void runTo(
            VirtualRig rig, long until, LongUnaryOperator nextCut, StringBuilder seen, byte[] buffer) {
        while (rig.nowMicros() < until) {
            rig.runUntil(Math.min(until, nextCut.applyAsLong(rig.nowMicros())));
            int count;
            while ((count = rig.receive(buffer)) > 0) {
                seen.append(rig.nowMicros()).append(Arrays.toString(Arrays.copyOf(buffer, count)));
            }
        }
    }

    @Test
    void isTheRigItselfOnALineWithNeitherSpeedNorFaults() {
        String bare = drive(Shuttle.create(), FaultyRigTests::uncut);
        assertTrue(bare.length() > 10_000, "the rig records");
        assertEquals(bare, drive(clean(0), FaultyRigTests::uncut));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void doesTheSameHoweverItsTimeIsCut(long seed) {
        LineFaults bad = new LineFaults(0.003, 0.003, 0.003, 700, 3000);
        String uncut = drive(pulledOnce(new FaultyRig(Shuttle.create(), 500_000, bad, seed)), FaultyRigTests::uncut);
        assertTrue(uncut.length() > 10_000, "the rig records");
        Random cuts = new Random(seed);
        String cut = drive(
                pulledOnce(new FaultyRig(Shuttle.create(), 500_000, bad, seed)), now -> now + 1 + cuts.nextInt(9000));
        assertEquals(uncut, cut, "seed " + seed);
        assertNotEquals(
                uncut,
                drive(pulledOnce(new FaultyRig(Shuttle.create(), 500_000, bad, seed + 1)), FaultyRigTests::uncut));
    }

    private static FaultyRig pulledOnce(FaultyRig rig) {
        rig.pullCable(700_003, 100_000);
        return rig;
    }

    @Test
    void takesTheTimeOfTheLineBothWays() {
        FaultyRig rig = clean(9600);
        WireHost host = WireHost.on(rig, 3);
        assertTrue(host.until(() -> !host.replies.isEmpty()));
        // The rig starts after 50 ms, its greeting of some 40 bytes takes 1.04 ms a byte.
        long greeted = rig.nowMicros();
        assertTrue(greeted > 50_000 + 30 * 1041 && greeted < 50_000 + 70 * 1042, "greeted at " + greeted);
        host.open();
        long both = rig.nowMicros() - greeted;
        assertTrue(both > (12 + 30) * 1041, "answered after " + both);
    }

    @Test
    void delaysByItsLatencyEachWay() {
        FaultyRig rig = new FaultyRig(Shuttle.create(), 0, new LineFaults(0, 0, 0, 20_000, 0), 1);
        WireHost host = WireHost.on(rig, 3);
        assertTrue(host.until(() -> !host.replies.isEmpty()));
        assertEquals(70_000, rig.nowMicros());
        long asked = rig.nowMicros();
        host.open();
        long took = rig.nowMicros() - asked;
        assertTrue(took >= 40_000 && took <= 40_000 + 5 * 5200, "answered after " + took);
    }

    @Test
    void losesAllBothWaysWhileTheCableIsOut() {
        FaultyRig rig = clean(0);
        WireHost host = WireHost.on(rig, 3);
        host.open();
        host.done(new Watch(1, 0, Shuttle.POSITION));
        long pulled = rig.nowMicros() + 100_000;
        rig.pullCable(pulled, 500_000);
        assertTrue(rig.isPlugged());
        long mark = rig.nowMicros();
        byte[] buffer = new byte[4096];
        while (rig.nowMicros() < pulled + 499_999) {
            rig.runUntil(pulled + 499_999);
            int count = rig.receive(buffer);
            assertTrue(count == 0 || rig.nowMicros() < pulled, "bytes at " + rig.nowMicros());
        }
        assertFalse(rig.isPlugged());
        rig.send(new byte[100], 0, 100);
        rig.runUntil(pulled + 500_000);
        assertTrue(rig.isPlugged());
        assertTrue(rig.nowMicros() > mark);
        int before = host.all(Record.class).size();
        assertTrue(host.until(() -> host.all(Record.class).size() > before + 10), "it goes on when the cable is back");
        assertEquals(0, host.reader.badFrames());
    }

    @Test
    void losesWhatIsOnTheWayWhenTheCableIsPulledForAMoment() {
        FaultyRig rig = new FaultyRig(Shuttle.create(), 0, new LineFaults(0, 0, 0, 50_000, 0), 1);
        WireHost host = WireHost.on(rig, 3);
        host.open();
        long asked = rig.nowMicros();
        int before = host.replies.size();
        host.tell(new Watch(1, 0, Shuttle.POSITION));
        rig.pullCable(asked + 10_000, 10_000);
        rig.runUntil(asked + 300_000);
        host.hear();
        assertEquals(asked + 300_000, rig.nowMicros(), "nothing came");
        assertEquals(before, host.replies.size());
        assertTrue(rig.toRig().lost() > 10, "lost on the way: " + rig.toRig().lost());
        host.done(new Watch(1, 0, Shuttle.POSITION));
    }

    @Test
    void showsFaultsAsBadFramesOnly() {
        FaultyRig rig = new FaultyRig(Shuttle.create(), 0, LineFaults.ofBytes(0.002, 0.002, 0.002), 8);
        WireHost host = WireHost.on(rig, 3);
        host.open();
        for (int i = 0; i < 5; i++) {
            host.tell(new Watch(1, 0, Shuttle.STEP, Shuttle.POSITION, Shuttle.CURRENT));
        }
        assertTrue(host.until(() -> host.all(Record.class).size() > 1000));
        assertTrue(host.reader.badFrames() > 50, host.reader.badFrames() + " bad frames");
        assertTrue(rig.toBench().lost() > 10
                && rig.toBench().flipped() > 10
                && rig.toBench().doubled() > 10);
        // Position at rest: a fault never makes a record of its own.
        assertTrue(host.all(Record.class).stream()
                        .mapToInt(one -> one.told(1))
                        .distinct()
                        .count()
                <= 3);
    }

    @Test
    void refusesToPullACableInThePast() {
        FaultyRig rig = clean(0);
        rig.runUntil(1000);
        long now = rig.nowMicros();
        assertThrows(IllegalArgumentException.class, () -> rig.pullCable(now - 1, 5));
        assertThrows(IllegalArgumentException.class, () -> rig.pullCable(now, 0));
        rig.pullCable(now, Long.MAX_VALUE);
        assertFalse(rig.isPlugged());
    }
}
