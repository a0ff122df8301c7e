package snagbench.bench.trace;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
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

    private static byte[] written(Trace trace) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        TraceFile.write(trace, out);
        return out.toByteArray();
    }

    private static Trace read(byte[] bytes) throws IOException {
        return TraceFile.read(new ByteArrayInputStream(bytes));
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
                Arguments.of("with a slow clock", run().clock(tick -> tick * 700_000_000)),
                Arguments.of("without records", run().loseTicks(0, 59)),
                Arguments.of("empty", new SyntheticTrace(0)));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("traces")
    void comesBackAsItWasAndGivesTheSameBytesAgain(String what, SyntheticTrace of) throws IOException {
        Trace trace = of.trace();
        byte[] bytes = written(trace);

        Trace again = read(bytes);

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
        Trace trace = run().trace();
        byte[] bytes = written(trace);
        int readable = 0;
        for (int length = 0; length < bytes.length; length++) {
            byte[] cut = Arrays.copyOf(bytes, length);
            try {
                Trace again = read(cut);
                assertTrue(again.rows() <= trace.rows());
                for (int row = 0; row < again.rows(); row++) {
                    assertEquals(trace.tick(row), again.tick(row));
                    assertEquals(trace.real(row, POSITION.index()), again.real(row, POSITION.index()));
                }
                readable++;
            } catch (IOException e) {
                assertTrue(e.toString().contains("trace file"), e.toString());
            }
        }
        assertTrue(readable > bytes.length / 2, readable + " of " + bytes.length + " could be read");
    }

    @Test
    void aDamagedRecordIsAGap() throws IOException {
        Trace trace = run().trace();
        byte[] bytes = written(trace);
        bytes[bytes.length - 20] ^= 0x10;

        Trace again = read(bytes);

        assertEquals(trace.rows() - 1, again.rows());
    }

    @Test
    void somethingElseIsToldToBeNoTraceFile() {
        IOException error = assertThrows(
                IOException.class, () -> read("fault-script: reach blocked\n".getBytes(StandardCharsets.UTF_8)));

        assertEquals("not a trace file: it does not begin with a greeting", error.getMessage());
    }
}
