package snagbench.bench.serve;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Objects;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.LongSupplier;
import snagbench.probe.VirtualRig;

/** A served rig, the shuttle unless another is given, on a thread of its own, with its log kept. */
public final class Serving implements AutoCloseable {
    private static final Duration LONGEST = Duration.ofSeconds(20);

    private final Queue<String> log = new ConcurrentLinkedQueue<>();
    private final AtomicReference<Path> port = new AtomicReference<>();
    private final AtomicBoolean stopped = new AtomicBoolean();
    private final AtomicLong rigMicros = new AtomicLong();
    private final CompletableFuture<Void> ended = new CompletableFuture<>();
    private final ServedRig served;

    private Serving(
            VirtualRig served,
            int baud,
            LineFaults faults,
            Optional<Path> link,
            Optional<ServedRig.Disconnection> disconnection,
            LongSupplier nanos)
            throws IOException {
        RigLog rigLog = new RigLog(log::add);
        FaultyRig rig = new FaultyRig(rigLog.around(served), baud, faults, 1);
        this.served = ServedRig.open(rig, link, disconnection, nanos, rigLog, port::set);
        Thread thread = new Thread(() -> run(rig), "served rig");
        thread.setDaemon(true);
        thread.start();
    }

    static Serving plain() throws IOException {
        return at(System::nanoTime);
    }

    static Serving at(LongSupplier nanos) throws IOException {
        return new Serving(Shuttle.create(), 0, LineFaults.NONE, Optional.empty(), Optional.empty(), nanos);
    }

    static Serving with(
            int baud, LineFaults faults, Optional<Path> link, Optional<ServedRig.Disconnection> disconnection)
            throws IOException {
        return new Serving(Shuttle.create(), baud, faults, link, disconnection, System::nanoTime);
    }

    /** Any rig, on a line that takes no time. */
    public static Serving of(VirtualRig rig) throws IOException {
        return new Serving(rig, 0, LineFaults.NONE, Optional.empty(), Optional.empty(), System::nanoTime);
    }

    /** Any rig, on a line of some speed. */
    public static Serving of(VirtualRig rig, int baud) throws IOException {
        return new Serving(rig, baud, LineFaults.NONE, Optional.empty(), Optional.empty(), System::nanoTime);
    }

    /** Any rig, on a port that is found under a link, also after its cable was out. */
    public static Serving of(VirtualRig rig, Path link) throws IOException {
        return new Serving(rig, 0, LineFaults.NONE, Optional.of(link), Optional.empty(), System::nanoTime);
    }

    private void run(FaultyRig rig) {
        try (served) {
            served.run(() -> {
                rigMicros.set(rig.nowMicros());
                return stopped.get();
            });
        } catch (IOException | RuntimeException e) {
            ended.completeExceptionally(e);
        }
        ended.complete(null);
    }

    public Path port() {
        return Objects.requireNonNull(port.get());
    }

    public ServedRig served() {
        return served;
    }

    public String log() {
        return String.join("\n", log);
    }

    /** The rig's own time, as of its last round. */
    public long rigMicros() {
        return rigMicros.get();
    }

    public void awaitLog(String text) {
        await().atMost(LONGEST).pollInterval(Duration.ofMillis(5)).until(() -> log().contains(text));
    }

    /** Stops it and fails if it had failed. */
    @Override
    public void close() throws IOException {
        stopped.set(true);
        try {
            ended.get(20, TimeUnit.SECONDS);
        } catch (Exception e) {
            throw new IOException("the served rig did not end well; its log:\n" + log(), e);
        }
    }
}
