package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.management.ManagementFactory;
import org.junit.jupiter.api.Test;
import snagbench.wire.Comparison;
import snagbench.wire.EntryKind;
import snagbench.wire.FrameWriter;
import snagbench.wire.Guard;
import snagbench.wire.GuardKind;
import snagbench.wire.Keep;
import snagbench.wire.Point;
import snagbench.wire.Request;
import snagbench.wire.TermRole;
import snagbench.wire.Timing;

/** While a program is armed the probe allocates nothing: not for records, events, answers or the lease. */
class AllocationTests {
    private static final int WARM_UP = 20_000;
    private static final int TICKS = 20_000;
    private static final int TICKS_TO_A_KEEP = 20;

    private final com.sun.management.ThreadMXBean threads =
            (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();

    @Test
    void nothingIsAllocatedWhileArmed() {
        Armed armed = new Armed(Integer.MAX_VALUE);
        assertEquals(0, allocatedBy(armed), "bytes in " + TICKS + " ticks");
        assertTrue(armed.rig.line.givenInAll() > 20L * TICKS, "records were sent");
        assertTrue(armed.toldForced > TICKS / 20, "overrides were on");
    }

    @Test
    void nothingIsAllocatedOnALineThatTakesTooLittle() {
        Armed armed = new Armed(3);
        assertEquals(0, allocatedBy(armed), "bytes in " + TICKS + " ticks");
        assertTrue(armed.rig.line.givenInAll() > TICKS, "something was sent");
    }

    private long allocatedBy(Armed armed) {
        armed.run(WARM_UP);
        long before = threads.getCurrentThreadAllocatedBytes();
        long between = threads.getCurrentThreadAllocatedBytes();
        armed.run(TICKS);
        long after = threads.getCurrentThreadAllocatedBytes();
        assertTrue(armed.rig.stop.reasons.isEmpty(), "the lease was renewed all the time");
        // The measuring itself may take something; what it takes is taken off.
        return after - between - (between - before);
    }

    /** A rig in which entries strike and end, events come, and the lease is renewed all the time. */
    private static final class Armed {
        final TestRig rig = new TestRig();
        private final Channel[] read = {
            rig.position, rig.current, rig.trigger, rig.start, rig.fs1.inhibition(), rig.wide
        };
        private final FrameWriter[] keeps = new FrameWriter[(WARM_UP + TICKS) / TICKS_TO_A_KEEP + 1];
        private int tick;
        private int kept;
        int toldForced;

        Armed(int bytesPerWrite) {
            load();
            int number = rig.number;
            for (int i = 0; i < keeps.length; i++) {
                keeps[i] = new FrameWriter(64);
                assertTrue(new Request(rig.session, rig.boot, ++number, new Keep(10_000, 0)).write(keeps[i]));
            }
            rig.line.onlyCount(bytesPerWrite);
        }

        private void load() {
            rig.begin();
            rig.load(
                    new Guard(0, GuardKind.TRAVEL.code(), rig.position.index(), -1000, 1000, 0, 0, -1),
                    new Guard(1, GuardKind.SPEED.code(), rig.position.index(), 2000, 0, 8, 0, -1),
                    Programs.entry(0, EntryKind.STUCK_AT, rig.position, 5, 20_000, 0),
                    new Timing(0, 0, 0, 0, 0, 1, 0),
                    Programs.when(0, rig.trigger, Comparison.RISES_TO, 5),
                    Programs.term(0, TermRole.UNTIL, rig.trigger, Comparison.BELOW, -50),
                    Programs.follower(1, 0, EntryKind.DRIFT, rig.current, 1 << 20, 0, 0),
                    Programs.entry(2, EntryKind.FREEZE, rig.current, 0, 10_000, 0),
                    new Timing(2, 0, 5000, 0, 0, 1, 0),
                    Programs.when(2, rig.step, Comparison.IS, 2),
                    Programs.answered(2, TermRole.WHILE, 1),
                    Programs.entry(3, EntryKind.NOISE, rig.position, 1663, 60_000, 0),
                    new Timing(3, 0, 0, 15_000, 5_000, 1, 0),
                    Programs.when(3, rig.trigger, Comparison.FALLS_TO, -5),
                    Programs.term(3, TermRole.UNTIL, rig.position, Comparison.AGREES, 0),
                    Programs.follower(4, 3, EntryKind.DELAY, rig.trigger, 7, 0, 0),
                    Programs.follower(5, 3, EntryKind.REPLAY, rig.wide, 0, 0, 0),
                    new Timing(5, 0, 0, 5_000, 10_000, 1, 1),
                    new Point(5, 0, 3),
                    new Point(5, 2, -3),
                    new Point(5, 5, 1000),
                    Programs.follower(6, 3, EntryKind.SCALE, rig.motor, 30_000, 0, 0));
            rig.arm();
        }

        void run(int ticks) {
            for (int i = 0; i < ticks; i++) {
                one();
            }
        }

        private void one() {
            Probe probe = rig.probe;
            rig.micros += TestRig.TICK;
            tick++;
            if (tick % TICKS_TO_A_KEEP == 0) {
                FrameWriter keep = keeps[kept++];
                rig.line.send(keep.frame(), keep.length());
            }
            probe.beginTick();
            int wave = tick % 40 - 20;
            for (int i = 0; i < read.length; i++) {
                int told = probe.read(read[i], wave);
                toldForced += told == wave ? 0 : 1;
            }
            probe.drive(rig.motor, wave);
            probe.report(rig.step, tick / 7 % 4);
            probe.report(rig.runs, tick);
            if (tick % 11 == 0) {
                probe.answered(rig.fs1);
            }
            probe.endTick();
        }
    }
}
