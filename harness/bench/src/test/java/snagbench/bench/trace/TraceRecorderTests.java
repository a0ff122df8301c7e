package snagbench.bench.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.VOLTAGE;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.wire.ChannelKind;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Record;
import snagbench.wire.ResetCause;

class TraceRecorderTests {
    private static final int[] WATCHED = {1, 2};

    private static TraceRecorder recorder() {
        return new TraceRecorder(SyntheticTrace.rig(), 1, WATCHED, 1000, 5_000_000, 7);
    }

    private static Record record(int tick, int micros, int newestEvent, int... values) {
        return new Record.Builder()
                .tick(tick, micros)
                .state(0, Record.ARMED, newestEvent, 0)
                .values(0, values, values, 0, 0, 0)
                .build();
    }

    private static Event event(int number, int tick, int kind) {
        return new Event(number, tick, 5_000_000 + (tick - 1000) * 5000, kind, number, 0);
    }

    @Test
    void countsFromArming() {
        TraceRecorder recorder = recorder();
        recorder.record(record(1000, 5_000_000, 7, 11, 12));
        recorder.record(record(1001, 5_005_000, 8, 21, 22));
        recorder.event(event(8, 1001, EventKind.ANSWERED.code()));

        Trace trace = recorder.trace();

        assertEquals(2, trace.rows());
        assertEquals(List.of(0, 1), List.of(trace.tick(0), trace.tick(1)));
        assertEquals(List.of(0L, 5000L), List.of(trace.micros(0), trace.micros(1)));
        assertEquals(1, trace.newestEvent(1));
        assertEquals(List.of(new Happening(1, 1, 5000, EventKind.ANSWERED, 8, 0)), trace.events());
        assertEquals(21, trace.real(1, POSITION.index()));
        assertEquals(22, trace.told(1, CURRENT.index()));
        assertFalse(trace.isWatched(VOLTAGE.index()));
        assertFalse(trace.has(0, VOLTAGE.index()));
        assertEquals(8, recorder.contiguousEvents());
    }

    @Test
    void leavesOutWhatIsOldRepeatedOrFromBeforeArming() {
        TraceRecorder recorder = recorder();
        recorder.record(record(999, 4_995_000, 7, 1, 1));
        recorder.record(record(1000, 5_000_000, 7, 2, 2));
        recorder.record(record(1002, 5_010_000, 7, 3, 3));
        recorder.record(record(1002, 5_010_000, 7, 4, 4));
        recorder.record(record(1001, 5_005_000, 7, 5, 5));
        recorder.event(event(7, 999, EventKind.LEASE.code()));

        Trace trace = recorder.trace();

        assertEquals(2, trace.rows());
        assertEquals(3, trace.real(1, POSITION.index()));
        assertEquals(List.of(new Gap(1, 1)), trace.gaps());
        assertEquals(List.of(), trace.events());
        assertEquals(7, recorder.contiguousEvents());
    }

    @Test
    void widensAClockThatWraps() {
        TraceRecorder recorder = new TraceRecorder(SyntheticTrace.rig(), 1, WATCHED, -2, -7000, 0);
        int loop = 1_000_000_000;
        for (int tick = 0; tick < 12; tick++) {
            recorder.record(record(-2 + tick, -7000 + tick * loop, 0, 0, 0));
        }

        Trace trace = recorder.trace();

        assertEquals(12, trace.rows());
        assertEquals(11L * loop, trace.micros(11));
        assertEquals(loop, trace.medianLoopMicros());
        assertEquals(loop, trace.longestLoopMicros());
    }

    @Test
    void takesEventsInAnyOrderAndOnce() {
        TraceRecorder recorder = recorder();
        recorder.event(event(10, 1005, EventKind.STATE.code()));
        recorder.event(event(8, 1001, EventKind.STATE.code()));
        assertEquals(8, recorder.contiguousEvents());
        recorder.event(event(9, 1003, EventKind.STATE.code()));
        recorder.event(event(9, 1003, EventKind.STATE.code()));
        assertEquals(10, recorder.contiguousEvents());

        assertEquals(
                List.of(1, 2, 3),
                recorder.trace().events().stream().map(Happening::number).toList());
    }

    @Test
    void anEventOfAKindOfANewerVersionIsSeenButNotKept() {
        TraceRecorder recorder = recorder();
        recorder.event(event(8, 1001, 99));
        recorder.event(event(9, 1001, EventKind.STATE.code()));

        assertEquals(9, recorder.contiguousEvents());
        assertEquals(1, recorder.trace().events().size());
        recorder.record(record(1001, 5_005_000, 9, 0, 0));
        assertTrue(recorder.trace().hasAllEvents(0, 1));
    }

    @Test
    void aViewDoesNotChangeWhenMoreComes() {
        TraceRecorder recorder = recorder();
        recorder.record(record(1000, 5_000_000, 7, 11, 12));
        Trace before = recorder.trace();
        String seen = SyntheticTrace.seen(before);
        for (int tick = 1; tick < 1000; tick++) {
            recorder.record(record(1000 + tick, 5_000_000 + 5000 * tick, 7 + tick, tick, tick));
            recorder.event(event(7 + tick, 1000 + tick, EventKind.STATE.code()));
        }

        assertEquals(seen, SyntheticTrace.seen(before));
        assertEquals(1000, recorder.trace().rows());
        assertEquals(999, recorder.trace().real(999, POSITION.index()));
    }

    @Test
    void tellsInWhichTicksALostEventMayHaveHappened() {
        TraceRecorder recorder = recorder();
        recorder.event(event(8, 1002, EventKind.STATE.code()));
        recorder.event(event(11, 1008, EventKind.STATE.code()));
        recorder.record(record(1004, 5_020_000, 8, 0, 0));
        recorder.record(record(1006, 5_030_000, 10, 0, 0));
        recorder.record(record(1009, 5_045_000, 11, 0, 0));

        Trace trace = recorder.trace();

        // Number 9 and 10 came behind tick 4, whose record knows of 8, and up to tick 6, whose record knows of 10.
        assertEquals(List.of(new Gap(5, 6), new Gap(10, Integer.MAX_VALUE)), trace.eventGaps());
        assertEquals(4, trace.completeEventsThroughTick());
        assertTrue(trace.hasAllEvents(0, 4));
        assertTrue(trace.hasAllEvents(7, 9));
        assertFalse(trace.hasAllEvents(4, 5));
        assertFalse(trace.hasAllEvents(6, 9));
        assertFalse(trace.hasAllEvents(9, 10));
    }

    @Test
    void anEventThatOnlyRecordsKnowOfIsMissing() {
        TraceRecorder recorder = recorder();
        recorder.record(record(1000, 5_000_000, 7, 0, 0));
        recorder.record(record(1003, 5_015_000, 8, 0, 0));
        recorder.record(record(1004, 5_020_000, 8, 0, 0));

        assertEquals(
                List.of(new Gap(1, 3), new Gap(5, Integer.MAX_VALUE)),
                recorder.trace().eventGaps());
        assertEquals(0, recorder.trace().completeEventsThroughTick());
    }

    @Test
    void putsSplitRecordsTogether() {
        int channels = 75;
        List<ChannelDescription> many = new ArrayList<>();
        for (int i = 0; i < channels; i++) {
            many.add(new ChannelDescription(
                    i, "channel " + i, ChannelKind.SENSOR, "mm", 1, 0, -1000, 1000, 0, 0, List.of()));
        }
        RigDescription rig = new RigDescription(0, many, List.of(), new ProbeCapacity(false, 0, 8, 8, 0, 0, 255, 0, 0));
        TraceRecorder recorder =
                new TraceRecorder(rig, 1, IntStream.range(0, channels).toArray(), 0, 0, 0);
        for (int tick = 0; tick < 3; tick++) {
            for (int first = 0; first < channels; first += 30) {
                // The middle part of tick 1 is lost.
                if (tick != 1 || first != 30) {
                    recorder.record(part(tick, first, Math.min(30, channels - first), channels));
                }
            }
        }

        Trace trace = recorder.trace();

        assertEquals(3, trace.rows());
        for (int row = 0; row < 3; row++) {
            for (int channel = 0; channel < channels; channel++) {
                boolean isLost = row == 1 && channel >= 30 && channel < 60;
                assertEquals(!isLost, trace.has(row, channel), "row " + row + ", channel " + channel);
                if (!isLost) {
                    assertEquals(1000 * row + channel, trace.told(row, channel));
                    assertEquals(channel % 7 == 3, trace.wasForced(row, channel), "channel " + channel);
                    assertEquals(channel % 7 == 3 ? -1 : 1000 * row + channel, trace.real(row, channel));
                    assertEquals(channel % 5 == 0, trace.stale(row, channel));
                    assertEquals(channel % 11 == 0, trace.absent(row, channel));
                }
            }
        }
    }

    private static Record part(int tick, int first, int count, int channels) {
        int[] told = new int[count];
        int[] real = new int[count];
        int forced = 0;
        int stale = 0;
        int absent = 0;
        for (int i = 0; i < count; i++) {
            told[i] = 1000 * tick + first + i;
            real[i] = (first + i) % 7 == 3 ? -1 : told[i];
            forced |= (first + i) % 7 == 3 ? 1 << i : 0;
            stale |= (first + i) % 5 == 0 ? 1 << i : 0;
            absent |= (first + i) % 11 == 0 ? 1 << i : 0;
        }
        return new Record.Builder()
                .tick(tick, tick * 5000)
                .state(0, first + count < channels ? Record.MORE : 0, 0, 0)
                .values(first, told, real, forced, stale, absent)
                .build();
    }

    @Test
    void aRecordOfWhichThePartsAreStillComingIsNotInTheView() {
        TraceRecorder recorder = recorder();
        recorder.record(new Record.Builder()
                .tick(1000, 5_000_000)
                .state(0, Record.MORE, 7, 0)
                .values(0, new int[] {5}, new int[] {5}, 0, 0, 0)
                .build());
        assertEquals(0, recorder.trace().rows());

        recorder.record(new Record.Builder()
                .tick(1000, 5_000_000)
                .state(0, 0, 7, 0)
                .values(1, new int[] {6}, new int[] {6}, 0, 0, 0)
                .build());
        assertEquals(1, recorder.trace().rows());
        assertEquals(6, recorder.trace().real(0, CURRENT.index()));
    }

    @Test
    void aPartBeyondTheWatchedListIsNotTaken() {
        TraceRecorder recorder = recorder();
        recorder.record(new Record.Builder()
                .tick(1000, 5_000_000)
                .values(1, new int[] {5, 6}, new int[] {5, 6}, 0, 0, 0)
                .build());

        assertEquals(0, recorder.trace().rows());
    }

    @Test
    void keepsLeastAndGreatestOfAPeriod() {
        Trace trace = new SyntheticTrace(10)
                .period(5)
                .real(CURRENT, tick -> tick == 2 ? 900 : 10 * tick)
                .trace();

        assertEquals(List.of(4, 9), List.of(trace.tick(0), trace.tick(1)));
        assertEquals(40, trace.real(0, CURRENT.index()));
        assertEquals(0, trace.leastReal(0, CURRENT.index()));
        assertEquals(900, trace.greatestReal(0, CURRENT.index()));
        assertEquals(50, trace.leastTold(1, CURRENT.index()));
        assertEquals(90, trace.greatestTold(1, CURRENT.index()));
        assertEquals(List.of(), trace.gaps());
        assertEquals(SyntheticTrace.LOOP_MICROS, trace.medianLoopMicros());
    }

    @Test
    void aLostRecordOfAPeriodIsAGapOfItsTicks() {
        Trace trace = new SyntheticTrace(20).period(5).loseTicks(9, 9).trace();

        assertEquals(List.of(new Gap(5, 9)), trace.gaps());
    }

    @Test
    void loopTimesLeaveOutGaps() {
        Trace trace = new SyntheticTrace(50)
                .clock(tick -> tick * 5000 + (tick >= 30 ? 400 : 0))
                .loseTicks(10, 20)
                .trace();

        assertEquals(5000, trace.medianLoopMicros());
        assertEquals(5400, trace.longestLoopMicros());
    }

    @Test
    void nothingIsRecordedBehindARestart() {
        TraceRecorder recorder = recorder();
        recorder.record(record(1000, 5_000_000, 7, 0, 0));
        recorder.restarted(ResetCause.BROWN_OUT);
        recorder.restarted(ResetCause.WATCHDOG);
        recorder.record(record(1001, 5_005_000, 7, 0, 0));
        recorder.event(event(8, 1001, EventKind.STATE.code()));

        Trace trace = recorder.trace();
        assertEquals(
                new Restart(ResetCause.BROWN_OUT, 0, OptionalLong.empty()),
                trace.restart().orElseThrow());
        assertEquals(1, trace.rows());
        assertEquals(List.of(), trace.events());
    }

    @Test
    void aTraceUpToATimeEndsWithTheFirstRecordAtOrBehindIt() {
        Trace whole = new SyntheticTrace(100)
                .step(20, "REACHING")
                .step(60, "DRAWING_BACK")
                .loseTicks(30, 31)
                .restartsAfter(90)
                .trace();

        Trace cut = whole.upTo(150_001);

        assertEquals(32, cut.tick(cut.rows() - 1));
        assertEquals(1, cut.events().size());
        assertTrue(cut.hasAllEvents(0, 32));
        assertFalse(cut.hasAllEvents(0, 33));
        assertTrue(cut.restart().isEmpty());
        assertEquals(whole.rows(), whole.upTo(1_000_000).rows());
        assertTrue(whole.upTo(1_000_000).restart().isPresent());
    }
}
