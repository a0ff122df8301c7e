package snagbench.bench.trace;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.IntUnaryOperator;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.wire.ChannelKind;
import snagbench.wire.EntryEnd;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Item;
import snagbench.wire.Record;
import snagbench.wire.ResetCause;
import snagbench.wire.StopReason;

/**
 * A trace made by hand, of an invented rig: it gives a recorder the records and events that a probe would send. The rig's
 * tick, its clock and its event numbers are about to wrap when it is armed.
 */
public final class SyntheticTrace {
    /** Loop time unless another is asked for. */
    public static final int LOOP_MICROS = 5000;

    public static final ChannelDescription STEP = new ChannelDescription(
            0,
            "step",
            ChannelKind.STATE,
            "",
            1,
            0,
            0,
            3,
            0,
            Item.STEP,
            List.of("READY", "REACHING", "DRAWING_BACK", "GIVEN_UP"));
    public static final ChannelDescription POSITION = new ChannelDescription(
            1, "reach.position", ChannelKind.SENSOR, "mm", 1, -1, -200, 4500, 0, Item.CLOSES_LOOP, List.of());
    public static final ChannelDescription CURRENT =
            new ChannelDescription(2, "reach.current", ChannelKind.SENSOR, "A", 1, -2, 0, 3000, 0, 0, List.of());
    public static final ChannelDescription VOLTAGE =
            new ChannelDescription(3, "battery.voltage", ChannelKind.SENSOR, "V", 1, -2, 0, 2000, 0, 0, List.of());

    public static final FailSafeDescription FS_01 = new FailSafeDescription(1, "FS-01", OptionalInt.empty());
    public static final FailSafeDescription FS_02 = new FailSafeDescription(2, "FS-02", OptionalInt.empty());

    private static final int ARMED_TICK = 0xFFFFFFF0;
    private static final int ARMED_MICROS = -12_345;
    private static final int NEWEST_EVENT_AT_ARMING = -3;

    private static final int[] WATCHED = {0, 1, 2, 3};

    private final int ticks;
    private final IntUnaryOperator[] real = {tick -> 0, tick -> 0, tick -> 0, tick -> 1200};
    private final IntUnaryOperator[] told = new IntUnaryOperator[WATCHED.length];
    private final List<int[]> events = new ArrayList<>();
    private final Set<Integer> lostTicks = new HashSet<>();
    private final Set<Integer> lostEvents = new HashSet<>();
    private final int[] flags;
    private IntUnaryOperator micros = tick -> tick * LOOP_MICROS;
    private int periodTicks = 1;
    private int channelsInPart = WATCHED.length;
    private int lostPartOf = -1;
    private int restartAfter = -1;
    private OptionalLong restartNoLater = OptionalLong.empty();
    private int goesOn;

    /**
     * Starts a trace.
     *
     * @param ticks from tick 0 on
     */
    public SyntheticTrace(int ticks) {
        this.ticks = ticks;
        this.flags = new int[ticks];
    }

    /** The rig of which all these traces are. */
    public static RigDescription rig() {
        return new RigDescription(
                0x1234abcd,
                List.of(STEP, POSITION, CURRENT, VOLTAGE),
                List.of(FS_01, FS_02),
                new ProbeCapacity(false, 0, 8, 24, 0, 4, 255, 0, 0));
    }

    public SyntheticTrace clock(IntUnaryOperator microsOfTick) {
        micros = microsOfTick;
        return this;
    }

    public SyntheticTrace period(int ticksOfRecord) {
        periodTicks = ticksOfRecord;
        return this;
    }

    public SyntheticTrace split(int channels) {
        channelsInPart = channels;
        return this;
    }

    public SyntheticTrace losePart(int tick) {
        lostPartOf = tick;
        return this;
    }

    public SyntheticTrace real(ChannelDescription channel, IntUnaryOperator valueOfTick) {
        real[channel.index()] = valueOfTick;
        return this;
    }

    public SyntheticTrace told(ChannelDescription channel, IntUnaryOperator valueOfTick) {
        told[channel.index()] = valueOfTick;
        return this;
    }

    /** The step from a tick on, with the event that tells it. */
    public SyntheticTrace step(int tick, String name) {
        int value = STEP.valueNames().indexOf(name);
        IntUnaryOperator before = real[0];
        real[0] = at -> at >= tick ? value : before.applyAsInt(at);
        return event(tick, EventKind.STATE, 0, value);
    }

    public SyntheticTrace on(int tick, int entry) {
        return event(tick, EventKind.ENTRY_ON, entry, 1);
    }

    public SyntheticTrace off(int tick, int entry, EntryEnd why) {
        return event(tick, EventKind.ENTRY_OFF, entry, why.code());
    }

    /** Released in the middle of a tick, as a stop does it: the record of that tick still shows it. */
    public SyntheticTrace released(int tick, int entry) {
        events.add(new int[] {tick, EventKind.ENTRY_OFF.code(), entry, EntryEnd.RELEASED.code(), 1});
        return this;
    }

    public SyntheticTrace answered(int tick, int failSafe) {
        int count = 1
                + (int) events.stream()
                        .filter(one -> one[1] == EventKind.ANSWERED.code() && one[2] == failSafe)
                        .count();
        return event(tick, EventKind.ANSWERED, failSafe, count);
    }

    public SyntheticTrace stageDone(int tick, int stage) {
        return event(tick, EventKind.STAGE_DONE, stage, 0);
    }

    public SyntheticTrace stageTimedOut(int tick, int stage) {
        return event(tick, EventKind.STAGE_TIMED_OUT, stage, 0);
    }

    public SyntheticTrace guard(int tick, int guard, int reading) {
        event(tick, EventKind.GUARD, guard, reading);
        return stop(tick, StopReason.GUARD);
    }

    public SyntheticTrace stop(int tick, StopReason why) {
        for (int at = tick; at < ticks; at++) {
            flags[at] |= Record.STOPPING | (why == StopReason.LET_GO ? 0 : Record.LATCHED);
        }
        return event(tick, EventKind.STOP, why.code(), 0);
    }

    public SyntheticTrace event(int tick, EventKind kind, int a, int b) {
        events.add(new int[] {tick, kind.code(), a, b});
        return this;
    }

    public SyntheticTrace loseTicks(int first, int last) {
        for (int tick = first; tick <= last; tick++) {
            lostTicks.add(tick);
        }
        return this;
    }

    /** Loses an event by its number, the first being 1. */
    public SyntheticTrace loseEvent(int number) {
        lostEvents.add(number);
        return this;
    }

    public SyntheticTrace restartsAfter(int tick) {
        restartAfter = tick;
        return this;
    }

    /** The host heard of the new boot at this time, on the clock that began with arming. */
    public SyntheticTrace restartsAfter(int tick, long noLaterMicros) {
        restartNoLater = OptionalLong.of(noLaterMicros);
        return restartsAfter(tick);
    }

    /** Ticks of the new boot that are heard of: every channel reads 5 in them, and fail-safe 1 answers in tick 7. */
    public SyntheticTrace goesOn(int ticksOfNewBoot) {
        goesOn = ticksOfNewBoot;
        return this;
    }

    /** Plays everything into a recorder, events before the record of their tick, as the probe sends them. */
    public Trace trace() {
        return recorder().trace();
    }

    public TraceRecorder recorder() {
        TraceRecorder recorder =
                new TraceRecorder(rig(), periodTicks, WATCHED, ARMED_TICK, ARMED_MICROS, NEWEST_EVENT_AT_ARMING);
        events.sort(Comparator.comparingInt(one -> one[0]));
        int sent = 0;
        int last = restartAfter < 0 ? ticks - 1 : restartAfter;
        for (int tick = 0; tick <= last; tick++) {
            while (sent < events.size() && events.get(sent)[0] <= tick) {
                sent++;
                if (!lostEvents.contains(sent)) {
                    recorder.event(event(sent, events.get(sent - 1)));
                }
            }
            if ((tick + 1) % periodTicks == 0 && !lostTicks.contains(tick)) {
                record(recorder, tick, sent);
            }
        }
        if (restartAfter >= 0) {
            recorder.restarted(ResetCause.BROWN_OUT, restartNoLater);
        }
        if (goesOn > 0) {
            playNewBoot(recorder.afterRestart(WATCHED));
        }
        return recorder;
    }

    private void playNewBoot(TraceRecorder part) {
        int[] values = new int[WATCHED.length];
        Arrays.fill(values, 5);
        for (int tick = 3; tick < 3 + goesOn; tick++) {
            if (tick == 7) {
                part.event(new Event(1, tick, tick * LOOP_MICROS, EventKind.ANSWERED.code(), 1, 1));
            }
            Record.Builder record = new Record.Builder()
                    .tick(tick, tick * LOOP_MICROS)
                    .state(0, 0, tick >= 7 ? 1 : 0, 0)
                    .values(0, values, values, 0, 0, 0);
            if (periodTicks > 1) {
                record.period(periodTicks, 1, 1, new int[][] {values, values}, new int[][] {values, values});
            }
            part.record(record.build());
        }
    }

    private Event event(int number, int[] one) {
        return new Event(
                NEWEST_EVENT_AT_ARMING + number,
                ARMED_TICK + one[0],
                ARMED_MICROS + micros.applyAsInt(one[0]),
                one[1],
                one[2],
                one[3]);
    }

    private void record(TraceRecorder recorder, int tick, int newestEvent) {
        for (int first = 0; first < WATCHED.length; first += channelsInPart) {
            int count = Math.min(channelsInPart, WATCHED.length - first);
            boolean more = first + count < WATCHED.length;
            if (lostPartOf == tick && first > 0) {
                continue;
            }
            Record.Builder part = new Record.Builder()
                    .tick(ARMED_TICK + tick, ARMED_MICROS + micros.applyAsInt(tick))
                    .state(
                            active(tick),
                            Record.ARMED | flags[tick] | (more ? Record.MORE : 0),
                            NEWEST_EVENT_AT_ARMING + newestEvent,
                            0)
                    .values(
                            first,
                            values(told, first, count, tick),
                            values(real, first, count, tick),
                            forced(first, count, tick),
                            0,
                            0);
            if (periodTicks > 1) {
                part.period(periodTicks, 1, 1, extremes(first, count, tick, false), extremes(first, count, tick, true));
            }
            recorder.record(part.build());
        }
    }

    private int active(int tick) {
        int mask = 0;
        for (int[] one : events) {
            if (one[0] <= tick && one[1] == EventKind.ENTRY_ON.code()) {
                mask |= 1 << one[2];
            } else if (one[0] + (one.length - 4) <= tick && one[1] == EventKind.ENTRY_OFF.code()) {
                mask &= ~(1 << one[2]);
            }
        }
        return mask;
    }

    private int forced(int first, int count, int tick) {
        int mask = 0;
        for (int i = 0; i < count; i++) {
            for (int at = tick - periodTicks + 1; at <= tick; at++) {
                mask |= active(at) != 0 && told[first + i] != null ? 1 << i : 0;
            }
        }
        return mask;
    }

    private int[] values(IntUnaryOperator[] source, int first, int count, int tick) {
        int[] values = new int[count];
        for (int i = 0; i < count; i++) {
            values[i] = value(source, first + i, tick);
        }
        return values;
    }

    private int value(IntUnaryOperator[] source, int channel, int tick) {
        boolean isTold = source == told && told[channel] != null && active(tick) != 0;
        return (isTold ? told : real)[channel].applyAsInt(tick);
    }

    private int[][] extremes(int first, int count, int tick, boolean greatest) {
        int[][] found = {values(told, first, count, tick), values(real, first, count, tick)};
        for (int at = tick - periodTicks + 1; at < tick; at++) {
            int[][] values = {values(told, first, count, at), values(real, first, count, at)};
            for (int i = 0; i < count; i++) {
                for (int source = 0; source < 2; source++) {
                    int one = values[source][i];
                    found[source][i] = greatest ? Math.max(found[source][i], one) : Math.min(found[source][i], one);
                }
            }
        }
        return found;
    }

    /** What a bench can see of this, as text: equal texts, equal traces. */
    public static String seen(Trace trace) {
        StringBuilder text = new StringBuilder();
        for (int row = 0; row < trace.rows(); row++) {
            text.append(trace.tick(row))
                    .append('@')
                    .append(trace.micros(row))
                    .append('#')
                    .append(trace.newestEvent(row));
            int[] values = new int[6 * WATCHED.length];
            for (int i = 0; i < WATCHED.length; i++) {
                if (trace.has(row, i)) {
                    values[6 * i] = trace.told(row, i);
                    values[6 * i + 1] = trace.real(row, i);
                    values[6 * i + 2] = trace.leastReal(row, i);
                    values[6 * i + 3] = trace.greatestReal(row, i);
                    values[6 * i + 4] = trace.leastTold(row, i);
                    values[6 * i + 5] = trace.greatestTold(row, i);
                }
            }
            text.append(trace.active(row)).append(trace.flags(row)).append(Arrays.toString(values));
        }
        return text.append(trace.events())
                .append(trace.restart())
                .append(trace.afterRestart().map(SyntheticTrace::seen))
                .toString();
    }
}
