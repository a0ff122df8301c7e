package snagbench.virtualrig.shuttle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import snagbench.probe.VirtualRig;
import snagbench.virtualrig.shuttle.control.ShuttleChannels;
import snagbench.wire.Answer;
import snagbench.wire.Arm;
import snagbench.wire.Do;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.Guard;
import snagbench.wire.Hello;
import snagbench.wire.Keep;
import snagbench.wire.Open;
import snagbench.wire.ProgramDigest;
import snagbench.wire.Record;
import snagbench.wire.Reply;
import snagbench.wire.Request;
import snagbench.wire.RequestBody;
import snagbench.wire.Watch;

/** The least that can drive a rig over its line: requests, a lease, and everything that comes back, kept. */
final class TestBench {
    static final int STEP = 2;
    static final int START_RUN = 3;
    static final int READY = 4;
    static final int POSITION = 5;
    static final int CURRENT = 6;
    static final int COMMAND = 7;
    static final int BEAM = 8;
    static final int GRIPPER = 9;
    static final int VOLTAGE = 10;
    static final int OBSTACLE = 11;
    static final int INHIBIT_FS_01 = channel("inhibit FS-01");
    static final int CHANNELS = new ShuttleChannels().description().channels().size();
    /** Sensors, actuators, states and counters: as many as one record takes. */
    private static final int WATCHED = channel("pots.skipped") + 1;

    private static final int CHANNELS_PER_WATCH = 16;

    private static final int FRAME = 256;
    private static final int LEASE_MILLIS = 2000;
    private static final long RENEW_MICROS = 500_000;
    private static final long ANSWER_MICROS = 1_000_000;

    final VirtualRig rig;
    final List<Event> events = new ArrayList<>();
    final List<Record> records = new ArrayList<>();
    final List<Hello> hellos = new ArrayList<>();

    /** Longest single call of runUntil: the results must not hang on it. */
    private final long cutMicros;

    private final FrameReader reader = new FrameReader(FRAME);
    private final FrameWriter writer = new FrameWriter(FRAME);
    private final byte[] buffer = new byte[64];
    private final int session;
    private int number;
    private @Nullable Reply answer;
    private boolean leased;
    private int awaited;
    private int newestEvent;
    private long renewAt;

    TestBench(VirtualRig rig, int session, long cutMicros) {
        this.rig = rig;
        this.session = session;
        this.cutMicros = cutMicros;
    }

    /** Index of a channel by its name. */
    static int channel(String name) {
        return new ShuttleChannels()
                .description().channels().stream()
                        .filter(one -> one.name().equals(name))
                        .findFirst()
                        .orElseThrow(() -> new AssertionError("no channel " + name))
                        .index();
    }

    static TestBench on(String build) {
        return new TestBench(new SeedlingShuttle().create(build), 77, Long.MAX_VALUE);
    }

    /** Opens a session that records each tick, takes a lease, and has the rig go home. */
    static TestBench ready(String build) {
        TestBench bench = on(build);
        bench.open();
        bench.home();
        return bench;
    }

    Hello hello() {
        return hellos.get(hellos.size() - 1);
    }

    void open() {
        openUnwatched();
        watchThem();
    }

    /** Opens a session that records nothing: events alone come. */
    void openUnwatched() {
        assertTrue(runUntil(() -> !hellos.isEmpty(), 1_000_000), "no greeting");
        ask(new Open(1, 1));
    }

    private void watchThem() {
        for (int first = 0; first < WATCHED; first += CHANNELS_PER_WATCH) {
            int[] some = IntStream.range(first, Math.min(WATCHED, first + CHANNELS_PER_WATCH))
                    .toArray();
            done(ask(new Watch(1, first, some)));
        }
    }

    void home() {
        leased = true;
        keep();
        done(ask(new Do(Do.RELEASE_LATCH, -1, 0)));
        int before = events.size();
        done(ask(new Do(Do.COMMAND, READY, 1)));
        assertTrue(runUntil(() -> lastStep(before) == 1, 15_000_000), "did not come to READY");
    }

    /** Loads a program and arms it; gives the tick of the rig in which it was armed. */
    int arm(int seed, Guard[] guards, RequestBody... program) {
        ProgramDigest digest = new ProgramDigest();
        int entries = 0;
        for (RequestBody body : program) {
            done(ask(body));
            digest.add(body);
            entries += body instanceof snagbench.wire.Entry ? 1 : 0;
        }
        ProgramDigest guardDigest = new ProgramDigest();
        for (Guard guard : guards) {
            done(ask(guard));
            guardDigest.add(guard);
        }
        Answer armed = ask(new Arm(entries, digest.value(), guards.length, guardDigest.value(), seed));
        done(armed);
        return armed.tick;
    }

    /** Safe stop and end of the program, which empties the slots, too. */
    void letGo() {
        leased = false;
        done(ask(new snagbench.wire.LetGo()));
        ask(new Open(1, 1));
        watchThem();
    }

    /** Stops renewing the lease, as a bench does that has hung. */
    void loseLease() {
        leased = false;
    }

    Answer ask(RequestBody body) {
        return askOf(body instanceof Open ? 0 : hello().boot, body);
    }

    /** Asks the controller's start of that id, which may be past. */
    Answer askOf(int boot, RequestBody body) {
        answer = null;
        number++;
        awaited = number;
        send(new Request(session, boot, number, body));
        boolean renews = leased;
        leased = false;
        runUntil(() -> answer != null, ANSWER_MICROS);
        leased = renews;
        Reply came = answer;
        assertTrue(came != null, () -> "no answer to " + body.type());
        return came instanceof Answer plain ? plain : new Answer(session, number, 0, 0, 0, 0);
    }

    void send(Request request) {
        assertTrue(request.write(writer));
        rig.send(writer.frame(), 0, writer.length());
    }

    static void done(Answer answer) {
        assertEquals(0, answer.code, "refused, word " + answer.word);
    }

    void run(long micros) {
        runUntil(() -> false, micros);
    }

    /** Runs, with the lease renewed, until something has come or so much time has passed; tells whether it has come. */
    boolean runUntil(BooleanSupplier come, long micros) {
        long end = rig.nowMicros() + micros;
        while (!come.getAsBoolean() && rig.nowMicros() < end) {
            long next = Math.min(end, rig.nowMicros() + Math.min(cutMicros, micros));
            if (leased) {
                next = Math.min(next, renewAt);
            }
            rig.runUntil(next);
            receive();
            if (leased && rig.nowMicros() >= renewAt) {
                keep();
            }
        }
        return come.getAsBoolean();
    }

    boolean runUntilStep(int step, long micros) {
        int from = events.size();
        return runUntil(() -> lastStep(from) == step, micros);
    }

    /** The step last entered since that event; -1 where none was. */
    private int lastStep(int fromEvent) {
        for (int i = events.size() - 1; i >= fromEvent; i--) {
            Event event = events.get(i);
            if (event.kind == EventKind.STATE.code() && event.a == STEP) {
                return event.b;
            }
        }
        return -1;
    }

    /** The lease goes out without waiting for its answer, as one does whose time must not hang on it. */
    private void keep() {
        renewAt = rig.nowMicros() + RENEW_MICROS;
        number++;
        send(new Request(session, hello().boot, number, new Keep(LEASE_MILLIS, newestEvent)));
    }

    private void receive() {
        int count;
        while ((count = rig.receive(buffer)) > 0) {
            for (int i = 0; i < count; i++) {
                if (reader.accept(buffer[i])) {
                    take(Reply.read(reader.payload()));
                }
            }
        }
    }

    private void take(@Nullable Reply reply) {
        assertTrue(reply != null, "a reply that cannot be read");
        if (reply instanceof Record record) {
            records.add(record);
        } else if (reply instanceof Event event) {
            // Events come again until they were seen.
            if (event.number > newestEvent) {
                newestEvent = event.number;
                events.add(event);
            }
        } else if (reply instanceof Hello greeting) {
            if (greeting.session == 0) {
                newestEvent = 0;
            }
            hellos.add(greeting);
            answer = greeting;
        } else if (reply instanceof Answer plain && plain.number == awaited) {
            answer = plain;
        }
    }

    /** The steps entered since a tick, in order. */
    List<Integer> stepsSince(int armedTick) {
        List<Integer> steps = new ArrayList<>();
        for (Event event : since(armedTick, EventKind.STATE)) {
            if (event.a == STEP) {
                steps.add(event.b);
            }
        }
        return steps;
    }

    /** The fail-safes that answered since a tick, in order. */
    List<Integer> answersSince(int armedTick) {
        return since(armedTick, EventKind.ANSWERED).stream()
                .map(event -> event.a)
                .toList();
    }

    List<Event> since(int armedTick, EventKind kind) {
        return events.stream()
                .filter(event -> event.kind == kind.code() && event.tick - armedTick >= 0)
                .toList();
    }

    List<Record> recordsSince(int armedTick) {
        return records.stream().filter(one -> one.tick - armedTick >= 0).toList();
    }

    Record lastRecord() {
        return records.get(records.size() - 1);
    }
}
