package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.judge.Judge;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;
import snagbench.bench.script.FaultScript;
import snagbench.bench.session.Programs;
import snagbench.bench.session.Shuttle;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.TraceFile;
import snagbench.bench.trace.TraceHeader;

/** Each script's trace is kept beside the journal, which names it; and judged again, it comes to the same. */
class StoredTraceTests {
    private static final List<FaultScript> ALL = List.of(
            Shuttle.script("reach-blocked-midway"),
            Shuttle.script("current-spike-too-short"),
            Shuttle.script("grip-not-there-yet"),
            Shuttle.script("obstacle-in-the-way"));

    private static Runs all(String build) {
        return Runs.on(build).of(5, ALL.toArray(FaultScript[]::new));
    }

    private static StoredTrace read(byte[] bytes) throws IOException {
        return TraceFile.read(new ByteArrayInputStream(bytes));
    }

    @ParameterizedTest
    @ValueSource(strings = {"standard", "without-FS-02", "weak-battery"})
    void judgedAgainItComesToTheSame(String build) throws Exception {
        Runs runs = all(build);
        List<ScriptResult> results = runs.run().results();

        assertEquals(ALL.size(), runs.traces().size());
        for (int i = 0; i < ALL.size(); i++) {
            ScriptResult result = results.get(i);
            StoredTrace stored = read(runs.trace(result));
            assertTrue(stored.whole());
            assertEquals(0, stored.damagedFrames());
            assertEquals(
                    result.rigMicros(), stored.trace().micros(stored.trace().rows() - 1));
            assertEquals(result.judgement(), Judge.judge(ALL.get(i), stored.trace(), Shuttle.file()));
        }
    }

    @Test
    void aTraceSaysWhatItIsOf() throws Exception {
        Runs runs = all("without-FS-02");
        ScriptResult first = runs.run().results().get(0);

        assertEquals("traces/0001-reach-blocked-midway.trace", first.trace().orElseThrow());
        TraceHeader header = read(runs.trace(first)).header();
        assertEquals(TraceHeader.Origin.RUN, header.origin());
        assertEquals("reach blocked midway", header.script());
        assertEquals(5, header.seed());
        assertEquals(Programs.digestOf(ALL.get(0)), header.program());
        assertFalse(header.build().isEmpty());
        assertEquals(
                Shuttle.description().channels(),
                read(runs.trace(first)).trace().rig().channels());
    }

    @Test
    void theSameSeedGivesTheSameBytesHoweverOftenTheHarnessLooks() throws Exception {
        Runs usual = all("standard");
        usual.run();
        Runs again = all("standard");
        again.run();
        Runs seldom = all("standard").over(Seldom::new);
        seldom.run();

        same(usual.traces(), again.traces());
        same(usual.traces(), seldom.traces());
    }

    private static void same(Map<String, byte[]> one, Map<String, byte[]> other) {
        assertEquals(one.keySet(), other.keySet());
        one.forEach((name, bytes) -> assertArrayEquals(bytes, other.get(name), name));
    }

    /** Gathers all that comes in 70 ms before it hands it on. */
    private record Seldom(Link line) implements PassingLink {
        @Override
        public int receive(byte[] into, long untilMicros) throws LinkException {
            long until = Math.min(untilMicros, line.nowMicros() + 70_000);
            int taken = 0;
            while (line.nowMicros() < until && taken < into.length / 2) {
                byte[] some = new byte[into.length / 2];
                int bytes = line.receive(some, until);
                System.arraycopy(some, 0, into, taken, bytes);
                taken += bytes;
            }
            return taken > 0 ? taken : line.receive(into, Math.min(untilMicros, line.nowMicros()));
        }
    }

    @Test
    void aTraceNeedsFewBytesATick() throws Exception {
        Runs runs = Runs.on("standard").of(5, ALL.get(0));
        byte[] bytes = runs.trace(runs.run().results().get(0));

        int rows = read(bytes).trace().rows();
        assertTrue(rows > 100, rows + " rows");
        assertTrue(bytes.length < 25 * rows, bytes.length + " bytes for " + rows + " rows");
    }
}
