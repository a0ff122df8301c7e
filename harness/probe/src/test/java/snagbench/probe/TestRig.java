package snagbench.probe;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import snagbench.wire.Answer;
import snagbench.wire.Arm;
import snagbench.wire.ChannelKind;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.FrameReader;
import snagbench.wire.FrameWriter;
import snagbench.wire.Guard;
import snagbench.wire.Hello;
import snagbench.wire.Item;
import snagbench.wire.Keep;
import snagbench.wire.LetGo;
import snagbench.wire.Open;
import snagbench.wire.ProgramDigest;
import snagbench.wire.Record;
import snagbench.wire.Reply;
import snagbench.wire.Request;
import snagbench.wire.RequestBody;
import snagbench.wire.ResetCause;
import snagbench.wire.StopReason;
import snagbench.wire.Watch;

/**
 * A probe with a clock that is set by hand, a line in memory, control code that passes every channel in every tick, and
 * a bench that speaks real frames.
 */
final class TestRig {
    static final int SESSION = 0xBEEF0001;
    static final int OTHER_SESSION = 0x1234;
    static final int BOOT = 0x80000007;
    static final int TICK = 5000;
    static final int SEED = 42;
    static final String BUILD = "test-1";
    static final ResetCause CAUSE = ResetCause.POWER_ON;
    static final ProbeLimits ROOMY = new ProbeLimits(32, 128, 256, 1000, 8, 1024, 512, 4096);

    final Channel position;
    final Channel current;
    final Channel motor;
    final Channel brake;
    final Channel start;
    final Channel step;
    final Channel runs;
    final Channel trigger;
    final Channel wide;
    final Channel gain;
    final Channel jam;

    /** An actuator whose range leaves out 0. */
    final Channel pump;

    final FailSafe fs1;
    final FailSafe fs2;
    final Description description;

    final MemoryLine line = new MemoryLine();
    final Stop stop = new Stop();
    final Enable enable = new Enable();

    /** What comes in, by channel; the control code passes it in each tick. */
    final int[] real;

    /** What the control code was given, by channel. */
    final int[] told;

    /** Channels that the control code leaves out in the ticks to come. */
    final boolean[] leftOut;

    /** Fail-safes that answer in the next tick. */
    final List<FailSafe> answering = new ArrayList<>();

    final List<Reply> replies = new ArrayList<>();

    /** Looks at each tick from its start to its end; does nothing unless it is set. */
    TickListener listener = rig -> {};

    final ProbeLimits limits;
    private final boolean isReal;
    private final FrameWriter writer;
    private final FrameReader reader;
    private ProgramDigest programDigest = new ProgramDigest();
    private ProgramDigest guardDigest = new ProgramDigest();

    Probe probe;
    int micros;
    int boot;
    int session = SESSION;
    int number;
    int entries;
    int guards;

    /** Number of the last tick that was run, since the controller's start. */
    int tick = -1;

    TestRig() {
        this(ROOMY, false, 0);
    }

    TestRig(ProbeLimits limits, boolean isReal, int startMicros) {
        this(limits, isReal, startMicros, BOOT);
    }

    TestRig(ProbeLimits limits, boolean isReal, int startMicros, int boot) {
        this.boot = boot;
        Description.Builder builder = Description.builder();
        position = builder.channel(ChannelSpec.of(ChannelKind.SENSOR, "position")
                .unit("mm", 1, -1)
                .range(-1000, 1000)
                .absent(-999)
                .closesLoop());
        current = builder.channel(ChannelSpec.of(ChannelKind.SENSOR, "current").range(0, 3000));
        motor = builder.channel(
                ChannelSpec.of(ChannelKind.ACTUATOR, "motor").range(-1000, 1000).mayBeWeakened());
        brake = builder.channel(ChannelSpec.of(ChannelKind.ACTUATOR, "brake"));
        start = builder.channel(ChannelSpec.of(ChannelKind.COMMAND, "start").range(0, 3));
        step = builder.channel(ChannelSpec.step("step", "STOPPED", "READY", "GOING", "DONE"));
        runs = builder.channel(ChannelSpec.of(ChannelKind.COUNTER, "runs").range(0, 1000));
        trigger = builder.channel(ChannelSpec.of(ChannelKind.SENSOR, "trigger").range(-100, 100));
        wide = builder.channel(ChannelSpec.of(ChannelKind.SENSOR, "wide").range(Integer.MIN_VALUE, Integer.MAX_VALUE));
        gain = builder.channel(ChannelSpec.of(ChannelKind.CONSTANT, "gain").range(-50, 50));
        jam = builder.channel(ChannelSpec.of(ChannelKind.DISTURBANCE, "jam").range(0, 1));
        pump = builder.channel(
                ChannelSpec.of(ChannelKind.ACTUATOR, "pump").range(2, 1000).mayBeWeakened());
        fs1 = builder.failSafe(1, "FS-01");
        fs2 = builder.failSafe(2, "FS-02");
        description = builder.build();
        this.limits = limits;
        this.isReal = isReal;
        int channels = description.channels().size();
        real = new int[channels];
        told = new int[channels];
        leftOut = new boolean[channels];
        writer = new FrameWriter(limits.frame);
        reader = new FrameReader(limits.frame);
        micros = startMicros - TICK;
        probe = newProbe();
    }

    private Probe newProbe() {
        Controller controller = new Controller(BUILD, boot, CAUSE, isReal, 0);
        return new Probe(description, controller, limits, line, () -> micros, stop, enable);
    }

    /** The controller starts anew, with another boot id; the bench does not know. */
    void restart() {
        line.clear();
        boot++;
        probe = newProbe();
        boot--;
        tick = -1;
    }

    void real(Channel channel, int value) {
        real[channel.index()] = value;
    }

    int told(Channel channel) {
        return told[channel.index()];
    }

    void tick() {
        tickAfter(TICK);
    }

    void ticks(int count) {
        for (int i = 0; i < count; i++) {
            tick();
        }
    }

    /** Runs one tick that starts so long after the start of the one before. */
    void tickAfter(int elapsed) {
        micros += elapsed;
        tick++;
        stop.stands = false;
        probe.beginTick();
        for (Channel channel : description.channels()) {
            int index = channel.index();
            if (isPassed(channel)) {
                told[index] = pass(channel, real[index]);
            }
        }
        for (FailSafe failSafe : answering) {
            probe.answered(failSafe);
        }
        probe.endTick();
        listener.ticked(this);
        answering.clear();
        receive();
    }

    /** The fail-safe report is the probe's own; all else is passed unless it is left out. */
    boolean isPassed(Channel channel) {
        return channel.index() > description.answerCount().index() && !leftOut[channel.index()];
    }

    private int pass(Channel channel, int value) {
        return switch (channel.kind()) {
            case ACTUATOR -> probe.drive(channel, value);
            case STATE, COUNTER -> {
                probe.report(channel, value);
                yield value;
            }
            default -> probe.read(channel, value);
        };
    }

    private void receive() {
        for (int i = 0; i < line.given(); i++) {
            if (reader.accept(line.given(i))) {
                Reply reply = Reply.read(reader.payload());
                require(reply != null, "a frame that is no message");
                replies.add(reply);
            }
        }
        require(reader.badFrames() == 0, "bad frames from the rig");
        line.forgetGiven();
    }

    /** Puts the next request on the line. */
    int send(RequestBody body) {
        send(session, boot, ++number, body);
        return number;
    }

    void send(int itsSession, int itsBoot, int itsNumber, RequestBody body) {
        require(new Request(itsSession, itsBoot, itsNumber, body).write(writer), "a request that fits a frame");
        line.send(writer.frame(), writer.length());
    }

    /** Asks and runs ticks until there is an answer. */
    Answer ask(RequestBody body) {
        int asked = send(body);
        for (int i = 0; i < 40; i++) {
            tick();
            Answer answer = answerTo(asked);
            if (answer != null) {
                return answer;
            }
        }
        throw new AssertionError("no answer to " + body.type());
    }

    @Nullable
    Answer answerTo(int itsNumber) {
        Answer found = null;
        for (Answer answer : all(Answer.class)) {
            if (answer.number == itsNumber && answer.session == session) {
                found = answer;
            }
        }
        return found;
    }

    void askDone(RequestBody body) {
        Answer answer = ask(body);
        require(answer.code == 0, body.type() + " refused with " + answer.code + " and word " + answer.word);
    }

    Hello open() {
        number = 0;
        programIsGone();
        guardsAreGone();
        send(session, 0, ++number, new Open(1, 1));
        tick();
        Hello hello = last(Hello.class);
        require(hello.session == session, "the greeting is of this session");
        return hello;
    }

    void keep() {
        askDone(new Keep(10_000, 0));
    }

    /** Opens a session, takes the lease and watches all channels in every tick. */
    void begin() {
        begin(1);
    }

    void begin(int periodTicks) {
        open();
        keep();
        watchAll(periodTicks);
    }

    void watchAll(int periodTicks) {
        int[] all = new int[description.channels().size()];
        Arrays.setAll(all, i -> i);
        for (int from = 0; from < all.length; from += 12) {
            int to = Math.min(all.length, from + 12);
            askDone(new Watch(periodTicks, from, Arrays.copyOfRange(all, from, to)));
        }
    }

    /** Loads entries, timings, terms and guards. */
    void load(RequestBody... bodies) {
        for (RequestBody body : bodies) {
            askDone(body);
            taken(body);
        }
    }

    /** Counts a part of a program, or a guard, that the rig took. */
    void taken(RequestBody body) {
        if (body instanceof Guard) {
            guardDigest.add(body);
            guards++;
        } else {
            programDigest.add(body);
            entries += body instanceof snagbench.wire.Entry ? 1 : 0;
        }
    }

    Arm armRequest() {
        return armRequest(SEED);
    }

    Arm armRequest(int seed) {
        return new Arm(entries, programDigest.value(), guards, guardDigest.value(), seed);
    }

    /** Arms; the tick that was run is tick 0. All that was heard before is forgotten. */
    Answer arm() {
        send(armRequest());
        replies.clear();
        tick();
        Answer answer = Objects.requireNonNull(answerTo(number), "no answer to arm");
        require(answer.code == 0, "arming refused with " + answer.code + " and word " + answer.word);
        require(answer.tick == tick && answer.micros == micros, "the answer tells tick 0");
        return answer;
    }

    /** Lets go and runs until it is answered; the program that was loaded is gone then. */
    Answer letGo() {
        Answer answer = ask(new LetGo());
        programIsGone();
        return answer;
    }

    void programIsGone() {
        programDigest = new ProgramDigest();
        entries = 0;
    }

    void guardsAreGone() {
        guardDigest = new ProgramDigest();
        guards = 0;
    }

    /** The frame of the request that was sent last. */
    byte[] lastFrame() {
        return Arrays.copyOf(writer.frame(), writer.length());
    }

    <T extends Reply> List<T> all(Class<T> type) {
        List<T> found = new ArrayList<>();
        for (Reply reply : replies) {
            if (type.isInstance(reply)) {
                found.add(type.cast(reply));
            }
        }
        return found;
    }

    <T extends Reply> T last(Class<T> type) {
        List<T> found = all(type);
        require(!found.isEmpty(), "no " + type.getSimpleName());
        return found.get(found.size() - 1);
    }

    Record record() {
        return last(Record.class);
    }

    List<Item> items() {
        return all(Item.class);
    }

    /** Events of a kind as "tick:a:b", the tick counted from a given one. */
    List<String> events(EventKind kind, int fromTick) {
        List<String> found = new ArrayList<>();
        for (Event event : all(Event.class)) {
            if (event.kind == kind.code()) {
                found.add((event.tick - fromTick) + ":" + event.a + ":" + event.b);
            }
        }
        return found;
    }

    /** Told of each tick that was run, before what the rig gave in it is read. */
    interface TickListener {
        void ticked(TestRig rig);
    }

    private static void require(boolean holds, String what) {
        if (!holds) {
            throw new AssertionError(what);
        }
    }

    /** A safe stop that takes as many ticks as it is told. */
    static final class Stop implements SafeStop {
        final List<StopReason> reasons = new ArrayList<>();
        int asksUntilStopped = 1;

        /** What was said in this tick; false where nothing was asked. */
        boolean stands;

        private int asks;

        @Override
        public void stop(StopReason reason) {
            reasons.add(reason);
            asks = 0;
        }

        @Override
        public boolean isStopped() {
            stands = ++asks >= asksUntilStopped;
            return stands;
        }
    }

    /** The physical enable, and the resets of a plant. */
    static final class Enable implements Arming {
        boolean enabled = true;
        final List<Integer> seeds = new ArrayList<>();

        @Override
        public boolean isEnabled() {
            return enabled;
        }

        @Override
        public void armed(int seed) {
            seeds.add(seed);
        }
    }
}
