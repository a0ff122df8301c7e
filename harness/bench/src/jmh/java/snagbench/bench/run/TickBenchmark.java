package snagbench.bench.run;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.ServiceLoader;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import snagbench.bench.link.RigWatch;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.read.RigFiles;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.script.read.Snapshots;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.SessionSettings;
import snagbench.bench.trace.TraceRecorder;
import snagbench.probe.VirtualRig;
import snagbench.probe.VirtualRigProvider;

/**
 * What harness and line cost for one tick of the example machine, all its channels recorded in every tick, beside plant
 * and control code alone. The difference of the two is the harness and the line: probe's program, record, frames both
 * ways through, trace. Figures are for one tick; a tick of the example is about 5.1 ms of its time.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(2)
public class TickBenchmark {
    /** Half a minute of the example's time, in ticks. */
    private static final int TICKS = 5_880;

    private static final long HALF_MINUTE_MICROS = 30_000_000;

    private final byte[] sink = new byte[4096];
    private VirtualRig alone = new Idle();
    private RigFile rigFile = unread();
    private Optional<FaultScript> script = Optional.empty();
    private Optional<RigSession> session = Optional.empty();

    /** Makes a rig that nobody talks to, and one under the harness with a script whose fault never strikes. */
    @Setup(Level.Trial)
    public void connect() throws SessionException {
        Path root = Path.of(System.getProperty("snagbench.root", "."));
        Path file = root.resolve("fixtures/seedling-shuttle/rig.yaml");
        rigFile = RigFiles.readRig(file, Optional.empty()).value().orElseThrow();
        RigDescription description =
                Snapshots.read(RigFiles.snapshotOf(file)).value().orElseThrow();
        script = ScriptReader.read(
                        root.resolve("test-plans/seedling-shuttle/reach-blocked-midway.fault.yaml"),
                        description,
                        rigFile)
                .value();
        VirtualRigProvider provider =
                ServiceLoader.load(VirtualRigProvider.class).iterator().next();
        alone = provider.create(provider.builds().get(0));
        VirtualLink link =
                new VirtualLink("benchmark", provider.create(provider.builds().get(0)), new RigWatch());
        RigSession opened =
                RigSession.open(link, SessionSettings.usual(1, rigFile.leaseMillis(), () -> false), Optional.empty());
        opened.loadGuards(rigFile.guards());
        session = Optional.of(opened);
    }

    /** Plant, control code and a probe to which nobody talks. */
    @Benchmark
    @OperationsPerInvocation(TICKS)
    public long plantAndControlAlone() {
        long until = alone.nowMicros() + HALF_MINUTE_MICROS;
        while (alone.nowMicros() < until) {
            alone.runUntil(until);
            alone.receive(sink);
        }
        return alone.nowMicros();
    }

    /** The same under the harness: armed, a record in every tick, decoded into a trace. */
    @Benchmark
    @OperationsPerInvocation(TICKS)
    public int underTheHarness() throws SessionException {
        RigSession running = session.orElseThrow();
        running.makeReady(rigFile.ready().orElseThrow(), false);
        TraceRecorder recorder = running.arm(script.orElseThrow(), 1);
        long until = running.nowMicros() + HALF_MINUTE_MICROS;
        while (running.nowMicros() < until) {
            running.work(until);
        }
        running.endRecording();
        running.letGo();
        return recorder.trace().rows();
    }

    private static RigFile unread() {
        return new RigFile(
                new snagbench.bench.script.Place(Path.of(""), 1, 1),
                "",
                Optional.empty(),
                1,
                0,
                Optional.empty(),
                List.of(),
                java.util.Map.of(),
                Path.of(""));
    }

    /** Stands in until the real one is made in set-up. */
    private static final class Idle implements VirtualRig {
        @Override
        public long nowMicros() {
            return 0;
        }

        @Override
        public void send(byte[] bytes, int from, int length) {
            throw new IllegalStateException("not set up");
        }

        @Override
        public int receive(byte[] into) {
            throw new IllegalStateException("not set up");
        }

        @Override
        public void runUntil(long micros) {
            throw new IllegalStateException("not set up");
        }
    }
}
