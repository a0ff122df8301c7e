package snagbench.bench.serve;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.function.BooleanSupplier;
import snagbench.probe.VirtualRig;
import snagbench.wire.Answer;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.Hello;
import snagbench.wire.Keep;
import snagbench.wire.Open;
import snagbench.wire.Record;
import snagbench.wire.Reply;
import snagbench.wire.Request;
import snagbench.wire.RequestBody;

/** The least that can talk to a rig in frames, over a port or in this process; it knows nothing of the harness. */
abstract class WireHost {
    private static final int FRAME = 256;
    private static final int LEASE_MILLIS = 1000;

    final List<Reply> replies = new ArrayList<>();
    final FrameReader reader = new FrameReader(FRAME);

    private final FrameWriter writer = new FrameWriter(FRAME);
    private final int session;
    private int number;
    private int boot;

    private WireHost(int session) {
        this.session = session;
    }

    static WireHost on(HostFile file, int session) {
        return new WireHost(session) {
            @Override
            void send(byte[] frame, int length) throws IOException {
                file.write(Arrays.copyOf(frame, length));
            }

            @Override
            byte[] receive() throws IOException {
                return file.readWaiting();
            }

            @Override
            long nowMicros() {
                return System.nanoTime() / 1000;
            }

            @Override
            boolean until(BooleanSupplier come) {
                await().atMost(Duration.ofSeconds(20))
                        .pollInterval(Duration.ofMillis(2))
                        .pollInSameThread()
                        .until(() -> {
                            hear();
                            return come.getAsBoolean();
                        });
                return true;
            }
        };
    }

    static WireHost on(VirtualRig rig, int session) {
        return new WireHost(session) {
            @Override
            void send(byte[] frame, int length) {
                rig.send(frame, 0, length);
            }

            @Override
            byte[] receive() {
                byte[] buffer = new byte[FRAME];
                return Arrays.copyOf(buffer, rig.receive(buffer));
            }

            @Override
            long nowMicros() {
                return rig.nowMicros();
            }

            @Override
            boolean until(BooleanSupplier come) {
                long end = rig.nowMicros() + 20_000_000;
                while (!come.getAsBoolean() && rig.nowMicros() < end) {
                    rig.runUntil(rig.nowMicros() + 5000);
                    hear();
                }
                return come.getAsBoolean();
            }
        };
    }

    abstract void send(byte[] frame, int length) throws IOException;

    abstract byte[] receive() throws IOException;

    abstract long nowMicros();

    /** Hears until something has come, within a bound. */
    abstract boolean until(BooleanSupplier come);

    void hear() {
        try {
            for (byte[] some = receive(); some.length > 0; some = receive()) {
                for (byte one : some) {
                    if (reader.accept(one)) {
                        take(Objects.requireNonNull(Reply.read(reader.payload()), "a good frame that cannot be read"));
                    }
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void take(Reply reply) {
        replies.add(reply);
        if (reply instanceof Hello hello) {
            boot = hello.boot;
        }
    }

    <R extends Reply> List<R> all(Class<R> kind) {
        return replies.stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    /** Sends and does not wait. */
    void tell(RequestBody body) {
        number++;
        assertTrue(new Request(session, body instanceof Open ? 0 : boot, number, body).write(writer));
        try {
            send(writer.frame(), writer.length());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Opens a session; asks again, since a rig that starts hears nothing. */
    Hello open() {
        for (int tries = 0; tries < 50 && !isOpen(); tries++) {
            tell(new Open(1, 1));
            long patience = nowMicros() + 200_000;
            until(() -> isOpen() || nowMicros() >= patience);
        }
        assertTrue(isOpen(), "no greeting");
        return all(Hello.class).stream()
                .filter(one -> one.session == session)
                .findFirst()
                .orElseThrow();
    }

    private boolean isOpen() {
        return all(Hello.class).stream().anyMatch(one -> one.session == session);
    }

    Answer ask(RequestBody body) {
        tell(body);
        int asked = number;
        assertTrue(
                until(() -> all(Answer.class).stream().anyMatch(one -> one.number == asked)),
                () -> "no answer to " + body.type());
        return all(Answer.class).stream()
                .filter(one -> one.number == asked)
                .findFirst()
                .orElseThrow();
    }

    void done(RequestBody body) {
        assertEquals(0, ask(body).code, () -> body.type() + " refused");
    }

    void keep() {
        done(new Keep(LEASE_MILLIS, newestEvent()));
    }

    private int newestEvent() {
        return all(Event.class).stream().mapToInt(one -> one.number).max().orElse(0);
    }

    /** Renews the lease until something has come. */
    void keepUntil(BooleanSupplier come) {
        for (int i = 0; i < 200 && !come.getAsBoolean(); i++) {
            keep();
            long before = all(Record.class).size();
            assertTrue(until(() -> all(Record.class).size() >= before + 20 || come.getAsBoolean()));
        }
        assertTrue(come.getAsBoolean(), "it did not come about");
    }

    boolean hasSeen(EventKind kind, int a) {
        return all(Event.class).stream().anyMatch(one -> one.kind == kind.code() && one.a == a);
    }

    boolean isInStep(int step) {
        List<Event> steps = all(Event.class).stream()
                .filter(one -> one.kind == EventKind.STATE.code() && one.a == Shuttle.STEP)
                .toList();
        return !steps.isEmpty() && steps.get(steps.size() - 1).b == step;
    }
}
