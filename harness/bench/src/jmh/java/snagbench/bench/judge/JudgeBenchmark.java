package snagbench.bench.judge;

import static snagbench.bench.judge.Scripts.BEGIN;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.FS_01;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.STEP;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.openjdk.jmh.annotations.AuxCounters;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.ChannelKind;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Record;

/**
 * What judging costs: a trace of 20 channels, all recorded in every tick, against ten expectations of all kinds that last to
 * its end. A sample is one channel in one tick. Two lengths show that it grows in proportion.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(1)
public class JudgeBenchmark {
    private static final int CHANNELS = 20;
    private static final int LOOP_MICROS = 1000;
    private static final int STRIKE = 40;

    /** Ticks of the trace. */
    @Param({"100000", "1000000"})
    public int ticks;

    private final RigFile rig = Scripts.rig(0);
    private Optional<Trace> trace = Optional.empty();
    private Optional<FaultScript> script = Optional.empty();

    /** Counts samples, so that the rate is told in them. */
    @State(Scope.Thread)
    @AuxCounters(AuxCounters.Type.OPERATIONS)
    public static class Samples {
        /** Samples judged. */
        public long samples;
    }

    /** Makes a trace that passes: a fail would also be searched for the tick that settled it. */
    @Setup(Level.Trial)
    public void play() {
        trace = Optional.of(trace(ticks));
        script = Optional.of(script(ticks));
        Judgement judgement = Judge.judge(script.get(), trace.get(), rig);
        if (judgement.verdict() != Verdict.PASS) {
            throw new IllegalStateException(judgement.toString());
        }
    }

    private static ChannelDescription channel(int index) {
        return index == 0
                ? STEP
                : new ChannelDescription(
                        index, "channel." + index, ChannelKind.SENSOR, "A", 1, -2, -100_000, 100_000, 0, 0, List.of());
    }

    private static Trace trace(int ticks) {
        List<ChannelDescription> channels =
                IntStream.range(0, CHANNELS).mapToObj(JudgeBenchmark::channel).toList();
        RigDescription description = new RigDescription(
                0x1234abcd, channels, List.of(FS_01, FS_02), new ProbeCapacity(false, 0, 8, 24, 0, 4, 255, 0, 0));
        int[] watched = IntStream.range(0, CHANNELS).toArray();
        TraceRecorder recorder = new TraceRecorder(description, 1, watched, 0, 0, 0);
        int events = 0;
        int[] told = new int[CHANNELS];
        int[] real = new int[CHANNELS];
        for (int tick = 0; tick < ticks; tick++) {
            for (EventKind kind : eventsOf(tick)) {
                int b = kind == EventKind.STATE ? stepOf(tick) : 1;
                int a = kind == EventKind.ANSWERED ? 2 : 0;
                recorder.event(new Event(++events, tick, tick * LOOP_MICROS, kind.code(), a, b));
            }
            boolean forced = tick >= STRIKE;
            real[0] = stepOf(tick);
            for (int channel = 1; channel < CHANNELS; channel++) {
                real[channel] = 1000 + (tick * (channel + 7) >>> 3 & 255);
            }
            System.arraycopy(real, 0, told, 0, CHANNELS);
            told[1] = forced ? 0 : told[1];
            recorder.record(new Record.Builder()
                    .tick(tick, tick * LOOP_MICROS)
                    .state(forced ? 1 : 0, Record.ARMED, events, 0)
                    .values(0, told, real, forced ? 2 : 0, 0, 0)
                    .build());
        }
        return recorder.trace();
    }

    private static int stepOf(int tick) {
        return tick < 20 ? 0 : tick < 70 ? 1 : 2;
    }

    private static List<EventKind> eventsOf(int tick) {
        return switch (tick) {
            case 20, 70 -> List.of(EventKind.STATE);
            case STRIKE -> List.of(EventKind.ENTRY_ON);
            case 60 -> List.of(EventKind.ANSWERED);
            default -> List.of();
        };
    }

    private static FaultScript script(int ticks) {
        long lastMillis = (ticks - 1L) * LOOP_MICROS / 1000;
        Stretch toTheEnd = new Stretch(INJECTION, Optional.empty(), Optional.empty());
        List<Condition> fine = new ArrayList<>();
        for (int channel = 1; channel <= 6; channel++) {
            fine.add(when(term(channel(channel), Relation.AT_LEAST, 900)));
        }
        Condition band = when(term(channel(8), Relation.AT_LEAST, 900), term(channel(8), Relation.AT_MOST, 1300));
        Condition.Compares peak = (Condition.Compares) term(channel(7), Relation.AT_MOST, 1300);
        return new Scripts()
                .failSafe(FS_02)
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .becomes("draws back", when(step("DRAWING_BACK")), within(250), after(0, "sees it"))
                .always(fine.get(1))
                .always(fine.get(2))
                .never(when(step("GIVEN_UP")))
                .mustNotFire(FS_01)
                .expect(at -> new Expectation.Peak(at, "peak", peak, toTheEnd))
                .expect(at -> new Expectation.Times(
                        at, "often", when(term(channel(9), Relation.AT_LEAST, 1200)), 1, OptionalInt.empty(), toTheEnd))
                .expect(at ->
                        new Expectation.Settles(at, "settles", band, OptionalLong.empty(), within(100), INJECTION))
                .expect(at -> new Expectation.Stays(
                        at, "stays", fine.get(5), (lastMillis - 400) * 1000, within(100), INJECTION))
                .end(lastMillis, BEGIN)
                .script();
    }

    /** One judgement. */
    @Benchmark
    public Judgement judge(Samples samples) {
        samples.samples += (long) ticks * CHANNELS;
        return Judge.judge(script.orElseThrow(), trace.orElseThrow(), rig);
    }
}
