package snagbench.bench.trace;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.VOLTAGE;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.wire.EntryEnd;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.FrameWriter;
import snagbench.wire.Record;
import snagbench.wire.StopReason;

class TraceFileTests {
    private static SyntheticTrace run() {
        return new SyntheticTrace(60)
                .step(10, "REACHING")
                .real(POSITION, tick -> 13 * tick - 200)
                .told(POSITION, tick -> 77)
                .real(VOLTAGE, tick -> 1260 - tick)
                .on(20, 0)
                .answered(30, 2)
                .step(30, "DRAWING_BACK")
                .off(31, 0, EntryEnd.UNTIL)
                .stop(55, StopReason.LET_GO);
    }

    private static final TraceHeader HEADER =
            new TraceHeader(TraceHeader.Origin.RUN, "reach blocked midway", -7, 0x89abcdef, "standard");

    private static byte[] written(Trace trace) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        TraceFile.write(HEADER, trace, out);
        return out.toByteArray();
    }

    private static StoredTrace stored(byte[] bytes) throws IOException {
        return TraceFile.read(new ByteArrayInputStream(bytes));
    }

    private static Trace read(byte[] bytes) throws IOException {
        return stored(bytes).trace();
    }

    static Stream<Arguments> traces() {
        return Stream.of(
                Arguments.of("plain", run()),
                Arguments.of("of several ticks a record", run().period(4)),
                Arguments.of(
                        "with gaps", run().loseTicks(12, 19).loseTicks(40, 40).loseEvent(3)),
                Arguments.of("with the last event lost", run().loseEvent(6)),
                Arguments.of("in parts", run().split(2)),
                Arguments.of("in parts, one lost", run().split(1).losePart(33)),
                Arguments.of("with a restart", run().restartsAfter(35)),
                Arguments.of(
                        "with a part behind the restart",
                        run().restartsAfter(35).goesOn(20)),
                Arguments.of(
                        "of several ticks a record, with a part behind the restart",
                        run().period(4).restartsAfter(35).goesOn(20)),
                Arguments.of("with a slow clock", run().clock(tick -> tick * 700_000_000)),
                Arguments.of("without records", run().loseTicks(0, 59)),
                Arguments.of("empty", new SyntheticTrace(0)));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("traces")
    void comesBackAsItWasAndGivesTheSameBytesAgain(String what, SyntheticTrace of) throws IOException {
        Trace trace = of.trace();
        byte[] bytes = written(trace);

        StoredTrace stored = stored(bytes);
        Trace again = stored.trace();

        assertEquals(HEADER, stored.header());
        assertTrue(stored.whole());
        assertEquals(0, stored.damagedFrames());
        assertEquals(SyntheticTrace.seen(trace), SyntheticTrace.seen(again), what);
        assertEquals(trace.rig(), again.rig());
        assertEquals(trace.periodTicks(), again.periodTicks());
        assertArrayEquals(trace.watchedChannels(), again.watchedChannels());
        assertEquals(trace.gaps(), again.gaps());
        assertEquals(trace.eventGaps(), again.eventGaps());
        assertEquals(trace.longestLoopMicros(), again.longestLoopMicros());
        for (int row = 0; row < trace.rows(); row++) {
            assertEquals(trace.wasForced(row, POSITION.index()), again.wasForced(row, POSITION.index()));
            assertEquals(trace.has(row, VOLTAGE.index()), again.has(row, VOLTAGE.index()));
        }
        assertArrayEquals(bytes, written(again));
    }

    @Test
    void anEventOfAnUnknownKindIsNoGapWhenReadAgain() throws IOException {
        TraceRecorder recorder = new TraceRecorder(SyntheticTrace.rig(), 1, new int[] {0}, 0, 0, 0);
        recorder.event(new Event(1, 3, 15_000, 99, 0, 0));
        recorder.event(new Event(2, 4, 20_000, EventKind.ANSWERED.code(), 2, 1));
        Trace trace = recorder.trace();

        assertEquals(trace.eventGaps(), read(written(trace)).eventGaps());
    }

    @Test
    void aFileCutOffAnywhereIsAShorterTraceOrAClearError() throws IOException {
        Trace trace = run().restartsAfter(50).goesOn(10).trace();
        byte[] bytes = appended(trace, 7);
        int readable = 0;
        int rowsBefore = 0;
        for (int length = 0; length < bytes.length; length++) {
            byte[] cut = Arrays.copyOf(bytes, length);
            try {
                StoredTrace stored = stored(cut);
                Trace again = stored.trace();
                assertFalse(stored.whole(), "cut at " + length);
                int rows = again.rows() + again.afterRestart().map(Trace::rows).orElse(0);
                assertTrue(rows >= rowsBefore, "more of the file is not less of the trace");
                rowsBefore = rows;
                isPrefix(trace, again);
                if (again.afterRestart().isPresent()) {
                    isPrefix(
                            trace.afterRestart().orElseThrow(),
                            again.afterRestart().get());
                }
                readable++;
            } catch (IOException e) {
                assertTrue(String.valueOf(e.getMessage()).contains("trace file"), e.toString());
                assertEquals(0, readable, "once it can be read, more of it can be read too");
            }
        }
        assertTrue(readable > bytes.length / 2, readable + " of " + bytes.length + " could be read");
        assertEquals(trace.rows() + 10, rowsBefore);
    }

    private static void isPrefix(Trace trace, Trace again) {
        assertTrue(again.rows() <= trace.rows());
        for (int row = 0; row < again.rows(); row++) {
            assertEquals(trace.tick(row), again.tick(row));
            assertEquals(trace.micros(row), again.micros(row));
            assertEquals(trace.real(row, POSITION.index()), again.real(row, POSITION.index()));
        }
        assertEquals(trace.events().subList(0, again.events().size()), again.events());
    }

    /** As it grew: each view that somebody had of it was appended. */
    private static byte[] appended(Trace trace, int rowsAtATime) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        TraceWriter writer = TraceWriter.begin(out, HEADER, trace.rig());
        for (int rows = rowsAtATime; rows < trace.rows(); rows += rowsAtATime) {
            writer.append(trace.upTo(trace.micros(rows - 1)));
        }
        writer.append(trace);
        writer.finish(trace);
        return out.toByteArray();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("traces")
    void oneThatWasAppendedToReadsAsOneWrittenInOneGo(String what, SyntheticTrace of) throws IOException {
        Trace trace = of.trace();

        Trace again = read(appended(trace, 9));

        assertEquals(SyntheticTrace.seen(trace), SyntheticTrace.seen(again), what);
        assertEquals(trace.eventGaps(), again.eventGaps());
        assertArrayEquals(written(trace), written(again));
    }

    @Test
    void anEventThatCameLateIsAppendedWhenItComes() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        TraceWriter writer = TraceWriter.begin(out, HEADER, SyntheticTrace.rig());
        TraceRecorder gathering = new TraceRecorder(SyntheticTrace.rig(), 1, new int[] {0}, 0, 0, 0);
        gathering.event(new Event(2, 4, 20_000, EventKind.ANSWERED.code(), 2, 1));
        gathering.record(record(5, 2));
        writer.append(gathering.trace());
        gathering.event(new Event(1, 3, 15_000, EventKind.ENTRY_ON.code(), 0, 1));
        gathering.record(record(6, 2));
        writer.append(gathering.trace());
        writer.finish(gathering.trace());

        assertEquals(gathering.trace().events(), read(out.toByteArray()).events());
        assertEquals(2, gathering.trace().events().size());
    }

    private static Record record(int tick, int newest) {
        return new Record.Builder()
                .tick(tick, 5000 * tick)
                .state(0, 0, newest, 0)
                .values(0, new int[] {1}, new int[] {1}, 0, 0, 0)
                .build();
    }

    @Test
    void aDamagedPieceIsAGapAndIsCounted() throws IOException {
        Trace trace = run().trace();
        byte[] bytes = appended(trace, 7);
        bytes[bytes.length - 200] ^= 0x10;

        StoredTrace stored = stored(bytes);

        assertEquals(1, stored.damagedFrames());
        assertTrue(stored.trace().rows() < trace.rows(), stored.trace().rows() + " rows");
        assertTrue(stored.trace().rows() >= trace.rows() - 7, stored.trace().rows() + " rows");
        assertFalse(stored.trace().gaps().isEmpty());
    }

    @Test
    void anyDamagedByteIsAGapOrAClearErrorAndNeverAnotherTrace() throws IOException {
        Trace trace = run().trace();
        byte[] bytes = appended(trace, 7);
        for (int at = 0; at < bytes.length; at++) {
            byte[] spoilt = bytes.clone();
            spoilt[at] ^= 0x04;
            try {
                Trace again = read(spoilt);
                for (int row = 0; row < again.rows(); row++) {
                    int was = trace.rowAtOrAfter(again.tick(row));
                    assertEquals(trace.micros(was), again.micros(row));
                    assertEquals(trace.told(was, POSITION.index()), again.told(row, POSITION.index()));
                }
                assertTrue(trace.events().containsAll(again.events()));
            } catch (IOException e) {
                assertTrue(String.valueOf(e.getMessage()).contains("trace file"), e.toString());
            }
        }
    }

    static Stream<Arguments> foreignFiles() {
        return Stream.of(
                Arguments.of("", "not a trace file: it is empty"),
                Arguments.of(
                        "fault-script: reach blocked\n",
                        "not a trace file, or one that was cut off in its first piece"),
                Arguments.of("\u0000\u0000\u0000", "not a trace file, or one that was cut off in its first piece"));
    }

    @ParameterizedTest
    @MethodSource("foreignFiles")
    void somethingElseIsToldToBeNoTraceFile(String content, String message) {
        IOException error = assertThrows(IOException.class, () -> read(content.getBytes(StandardCharsets.UTF_8)));

        assertEquals(message, error.getMessage());
    }

    @Test
    void whatCameOffALineIsNoTraceFile() {
        FrameWriter frames = new FrameWriter(255);
        record(3, 0).write(frames.begin());
        assertTrue(frames.end());

        IOException error = assertThrows(IOException.class, () -> read(Arrays.copyOf(frames.frame(), frames.length())));

        assertEquals("not a trace file: it does not begin as one", error.getMessage());
    }

    @Test
    void aFileOfANewerVersionIsToldToBeOne() {
        FrameWriter frames = new FrameWriter(255);
        var to = frames.begin();
        to.array(3);
        to.integer(64);
        to.text("snagbench trace");
        to.integer(2);
        assertTrue(frames.end());

        IOException error = assertThrows(IOException.class, () -> read(Arrays.copyOf(frames.frame(), frames.length())));

        assertEquals(
                "a trace file of version 2; this harness reads up to version 1, a newer one is needed",
                error.getMessage());
    }
}
