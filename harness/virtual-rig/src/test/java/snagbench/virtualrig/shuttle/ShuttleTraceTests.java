package snagbench.virtualrig.shuttle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.virtualrig.controller.LineRate;
import snagbench.wire.EntryKind;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Record;
import snagbench.wire.RequestBody;

/** Same seed, same run. */
class ShuttleTraceTests {
    private static final int TICKS = 1500;

    /** A run with a blocked reach, told currents and a second try. */
    private static RequestBody[] program() {
        return new RequestBody[] {
            Programs.startRun(),
            Programs.force(1, EntryKind.STUCK_AT, TestBench.OBSTACLE, 2200),
            Programs.fromPosition(1, 1000),
            Programs.untilAnswered(1, 2),
            Programs.force(2, EntryKind.OFFSET, TestBench.CURRENT, 37),
            Programs.inStep(2, 4)
        };
    }

    private static List<String> traceOf(TestBench bench, int seed) {
        int armed = bench.arm(seed, Programs.NO_GUARDS, program());
        bench.run(TICKS * 5200L);
        List<Record> records = bench.recordsSince(armed).subList(0, TICKS);
        Event start = bench.since(armed, EventKind.ARMED).get(0);
        List<String> trace = new ArrayList<>();
        for (Record one : records) {
            StringBuilder line = new StringBuilder()
                    .append(one.tick - start.tick)
                    .append(' ')
                    .append(one.micros - start.micros)
                    .append(' ')
                    .append(one.active)
                    .append(' ')
                    .append(one.flags)
                    .append(' ')
                    .append(one.newestEvent - start.number)
                    .append(' ')
                    .append(one.forced)
                    .append(' ')
                    .append(one.stale)
                    .append(' ')
                    .append(one.absent);
            for (int i = 0; i < one.count(); i++) {
                line.append(' ').append(one.told(i)).append('/').append(one.real(i));
            }
            trace.add(line.toString());
        }
        for (Event event : bench.events) {
            if (event.number - start.number >= 0 && event.tick - start.tick < TICKS) {
                trace.add("event " + (event.number - start.number) + " " + (event.tick - start.tick) + " "
                        + (event.micros - start.micros) + " " + event.kind + " " + event.a + " " + event.b);
            }
        }
        return trace;
    }

    @Test
    void isTheSameTickForTickWhateverRanBefore() {
        for (int seed = 1; seed <= 5; seed++) {
            List<String> fresh = traceOf(TestBench.ready("standard"), seed);

            TestBench used = TestBench.ready("standard");
            traceOf(used, seed + 100);
            used.letGo();
            used.home();
            assertSame(fresh, traceOf(used, seed), "after another run, seed " + seed);

            TestBench stopped = TestBench.ready("standard");
            stopped.arm(seed + 200, Programs.NO_GUARDS, Programs.startRun());
            stopped.run(700_000 + 12_345L * seed);
            stopped.letGo();
            stopped.home();
            stopped.run(98_765);
            assertSame(fresh, traceOf(stopped, seed), "after a run that was stopped, seed " + seed);
        }
    }

    private static void assertSame(List<String> wanted, List<String> found, String what) {
        for (int i = 0; i < Math.min(wanted.size(), found.size()); i++) {
            assertEquals(wanted.get(i), found.get(i), what + ", line " + i);
        }
        assertEquals(wanted.size(), found.size(), what);
    }

    @Test
    void differsFromSeedToSeed() {
        assertNotEquals(traceOf(TestBench.ready("standard"), 1), traceOf(TestBench.ready("standard"), 2));
    }

    /** The whole line, greeting to brown-out: every byte from the rig, and when it was there. */
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void givesTheSameBytesAtTheSameTimesHoweverItsTimeIsCut(boolean serial) {
        for (String build : new String[] {"standard", "weak-battery"}) {
            List<Long> whole = bytesOf(build, serial, 1_000_000);
            assertTrue(whole.size() > 10_000, "bytes " + whole.size());
            for (long cut : new long[] {3, 250, 777, 5000, 5200, 20_000}) {
                assertEquals(whole, bytesOf(build, serial, cut), build + ", cut to " + cut + " us");
            }
        }
        assertEquals(bytesOf("standard", serial, 1_000_000), bytesOf("standard", serial, 1));
    }

    private static List<Long> bytesOf(String build, boolean serial, long cut) {
        SeedlingShuttle shuttle = new SeedlingShuttle();
        LineRate rate = serial ? LineRate.serial(115_200, 256) : LineRate.UNLIMITED;
        List<Long> bytes = new ArrayList<>();
        TestBench bench = new TestBench(new Listening(shuttle.create(build, rate), bytes), 77, cut);
        bench.open();
        bench.home();
        bench.arm(1, Programs.NO_GUARDS, program());
        bench.run(1_500_000);
        return bytes;
    }

    /** Writes down what comes from a rig and when. */
    private record Listening(snagbench.probe.VirtualRig rig, List<Long> bytes) implements snagbench.probe.VirtualRig {
        @Override
        public long nowMicros() {
            return rig.nowMicros();
        }

        @Override
        public void send(byte[] sent, int from, int length) {
            rig.send(sent, from, length);
        }

        @Override
        public int receive(byte[] into) {
            int count = rig.receive(into);
            for (int i = 0; i < count; i++) {
                bytes.add((rig.nowMicros() << 8) | (into[i] & 0xFF));
            }
            return count;
        }

        @Override
        public void runUntil(long micros) {
            rig.runUntil(micros);
        }
    }

    /** At 115200 baud a record of all channels in every tick is more than the line carries: it drops some, and the run goes on. */
    @Test
    void fetchesThePotOverASerialLine() {
        TestBench bench =
                new TestBench(new SeedlingShuttle().create("standard", LineRate.serial(115_200, 256)), 5, 1_000_000);
        bench.open();
        bench.home();
        int armed = bench.arm(1, Programs.NO_GUARDS, Programs.startRun());
        assertTrue(bench.runUntilStep(8, 8_000_000));
        assertEquals(List.of(2, 5, 4, 8), bench.stepsSince(armed));
    }
}
