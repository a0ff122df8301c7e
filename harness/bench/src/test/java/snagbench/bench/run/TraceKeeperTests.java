package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.session.Shuttle;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceFile;

/** A trace that grows is kept but for its newest part, and none of it is lost where the harness ends by itself. */
class TraceKeeperTests {
    private static final long LOOP_MICROS = 5_000;

    @TempDir
    Path folder = Path.of("");

    private static StoredTrace ofARun(String build, String script) throws Exception {
        Runs runs = Runs.on(build).of(5, Shuttle.script(script));
        byte[] bytes = runs.trace(runs.run().results().get(0));
        return TraceFile.read(new ByteArrayInputStream(bytes));
    }

    private static long lastMicros(Trace trace) {
        return trace.micros(trace.rows() - 1);
    }

    private static byte[] bytes(StoredTrace stored) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        TraceFile.write(stored.header(), stored.trace(), bytes);
        return bytes.toByteArray();
    }

    @Test
    void aKillLosesNoMoreThanTheLastHalfSecondAndFewWritesAreMade() throws Exception {
        StoredTrace stored = ofARun("standard", "reach-stopped-short-in-the-rack-zone");
        Trace whole = stored.trace();
        long end = lastMicros(whole);
        assertTrue(end > 1_500_000, end + " us are enough to tell");
        Path file = folder.resolve("traces/one.trace");
        int writes = 0;
        long size = -1;
        try (TraceKeeper keeper = new TraceKeeper(file, stored.header())) {
            for (long micros = 0; micros <= end; micros += LOOP_MICROS) {
                Trace soFar = whole.upTo(micros);
                keeper.append(soFar);
                if (Files.size(file) != size) {
                    size = Files.size(file);
                    writes++;
                }
                StoredTrace kept = TraceFile.read(file);
                long lost = lastMicros(soFar) - lastMicros(kept.trace());
                assertFalse(kept.whole());
                assertTrue(lost < TraceKeeper.LONGEST_UNWRITTEN_MICROS, lost + " us are not kept at " + micros);
            }
        }

        assertTrue(writes <= 1 + end / TraceKeeper.LONGEST_UNWRITTEN_MICROS, writes + " writes in " + end + " us");
        StoredTrace kept = TraceFile.read(file);
        assertFalse(kept.whole(), "nobody brought it to its end");
        assertEquals(whole.rows(), kept.trace().rows(), "closed, all is there");
        assertEquals(whole.events(), kept.trace().events());
    }

    @Test
    void broughtToItsEndItHasTheBytesOfATraceThatWasWrittenInOneGo() throws Exception {
        StoredTrace stored = ofARun("standard", "current-spike-too-short");
        Path file = folder.resolve("one.trace");
        try (TraceKeeper keeper = new TraceKeeper(file, stored.header())) {
            for (long micros = 0; micros <= lastMicros(stored.trace()); micros += LOOP_MICROS) {
                keeper.append(stored.trace().upTo(micros));
            }
            keeper.finish(stored.trace());
        }

        assertArrayEquals(bytes(stored), Files.readAllBytes(file));
    }

    @Test
    void whatCannotBeWrittenIsToldAtTheEndAndNotInTheMidst() throws Exception {
        StoredTrace stored = ofARun("standard", "current-spike-too-short");
        Path file = Files.writeString(folder.resolve("in the way"), "a file").resolve("one.trace");
        try (TraceKeeper keeper = new TraceKeeper(file, stored.header())) {
            keeper.append(stored.trace().upTo(LOOP_MICROS));
            keeper.append(stored.trace());

            assertThrows(IOException.class, () -> keeper.finish(stored.trace()));
        }
    }
}
