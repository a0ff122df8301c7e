package snagbench.bench.run;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import snagbench.probe.Arming;
import snagbench.probe.Channel;
import snagbench.probe.ChannelSpec;
import snagbench.probe.Controller;
import snagbench.probe.Description;
import snagbench.probe.Probe;
import snagbench.probe.ProbeLimits;
import snagbench.probe.ProbeLine;
import snagbench.probe.SafeStop;
import snagbench.wire.ChannelKind;
import snagbench.wire.FrameWriter;
import snagbench.wire.Open;
import snagbench.wire.Request;
import snagbench.wire.RequestBody;
import snagbench.wire.ResetCause;
import snagbench.wire.StopReason;
import snagbench.wire.Watch;

/** What a tick of the probe costs in control code: alone, with readings, and with each of them recorded in every tick. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class ProbeBenchmark {
    private static final int TICK_MICROS = 5_000;

    /** How many sensors are read in a tick. */
    @Param({"0", "12"})
    public int reads;

    /** Whether a bench watches all of them. */
    @Param({"false", "true"})
    public boolean recorded;

    private final Memory line = new Memory();
    private Channel[] sensors = new Channel[0];
    private Probe probe = probe(Description.builder().build());
    private int micros;
    private int reading;

    private Probe probe(Description description) {
        return new Probe(
                description,
                new Controller("benchmark", 1, ResetCause.POWER_ON, true, 0),
                ProbeLimits.USUAL,
                line,
                () -> micros,
                new Brake(),
                Arming.ALWAYS);
    }

    /** Makes a probe with so many sensors, watched where that is asked for. */
    @Setup
    public void fit() {
        Description.Builder to = Description.builder();
        sensors = new Channel[reads];
        int[] all = new int[reads];
        for (int i = 0; i < reads; i++) {
            sensors[i] =
                    to.channel(ChannelSpec.of(ChannelKind.SENSOR, "sensor-" + i).range(0, 100_000));
            all[i] = sensors[i].index();
        }
        probe = probe(to.build());
        if (recorded && reads > 0) {
            ask(0, 1, new Open(1, 1));
            ask(1, 2, new Watch(1, 0, all));
        }
    }

    private void ask(int boot, int number, RequestBody body) {
        FrameWriter writer = new FrameWriter(64);
        if (!new Request(1, boot, number, body).write(writer)) {
            throw new IllegalStateException("a request longer than a frame");
        }
        line.ask(writer.frame(), writer.length());
        for (int i = 0; i < 5; i++) {
            tick();
        }
    }

    /** A pass of a loop that does nothing else. */
    @Benchmark
    public int tick() {
        micros += TICK_MICROS;
        probe.beginTick();
        int sum = 0;
        for (Channel sensor : sensors) {
            sum += probe.read(sensor, reading++ & 0xFFFF);
        }
        probe.endTick();
        return sum;
    }

    /** Takes all that it is given. */
    private static final class Memory implements ProbeLine {
        private byte[] asked = new byte[0];
        private int next;

        void ask(byte[] bytes, int length) {
            asked = java.util.Arrays.copyOf(bytes, length);
            next = 0;
        }

        @Override
        public int read() {
            return next < asked.length ? asked[next++] & 0xFF : -1;
        }

        @Override
        public int write(byte[] bytes, int from, int length) {
            return length;
        }
    }

    private static final class Brake implements SafeStop {
        @Override
        public void stop(StopReason reason) {
            // Nothing moves here.
        }

        @Override
        public boolean isStopped() {
            return true;
        }
    }
}
