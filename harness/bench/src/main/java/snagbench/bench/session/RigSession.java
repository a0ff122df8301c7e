package snagbench.bench.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import snagbench.bench.link.Link;
import snagbench.bench.script.DescriptionItems;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.Answer;
import snagbench.wire.Arm;
import snagbench.wire.Do;
import snagbench.wire.Event;
import snagbench.wire.Guard;
import snagbench.wire.Hello;
import snagbench.wire.Item;
import snagbench.wire.ItemRequest;
import snagbench.wire.Keep;
import snagbench.wire.LetGo;
import snagbench.wire.MessageType;
import snagbench.wire.Open;
import snagbench.wire.Record;
import snagbench.wire.Refusal;
import snagbench.wire.Reply;
import snagbench.wire.RequestBody;
import snagbench.wire.ResetCause;
import snagbench.wire.Watch;
import snagbench.wire.Wire;

/**
 * A session with one rig. After arming it only listens and renews the lease; the rig's probe does everything else by
 * itself, so that the harness's own latency moves nothing.
 *
 * <p>Not thread-safe: it runs on the caller's thread.
 */
public final class RigSession {
    private static final int CHANNELS_PER_WATCH = 16;
    private static final int RENEWALS_PER_LEASE = 4;

    private final SessionSettings settings;
    private final Exchange exchange;

    private @Nullable Hello hello;
    private @Nullable RigDescription description;
    private @Nullable LiveReadings live;
    private @Nullable TraceRecorder recorder;
    private @Nullable Answer answer;
    private @Nullable Item item;
    private @Nullable ResetCause restart;
    private int[] watched = new int[0];
    private int guardCount;
    private int guardDigest;
    private int newestEvent;
    private Consumer<Answer> onDone = done -> {};
    private boolean leased;
    private long renewMicros;

    private RigSession(Link link, SessionSettings settings) {
        this.settings = settings;
        this.exchange = new Exchange(link, settings);
    }

    /**
     * Opens a session: greets, reads the rig's description unless it is known, and watches all its channels.
     *
     * @param link the line to the rig
     * @param settings how to go about it
     * @param known a description that is used if the rig tells the same digest
     * @return a session without a lease
     * @throws SessionException if the rig is silent, busy or speaks another version
     */
    public static RigSession open(Link link, SessionSettings settings, Optional<RigDescription> known)
            throws SessionException {
        RigSession session = new RigSession(link, settings);
        session.greet();
        session.describe(known);
        session.watchAll();
        return session;
    }

    private void greet() throws SessionException {
        exchange.boot(0);
        exchange.ask(new Open(Wire.VERSION, Wire.VERSION));
        while (hello == null) {
            work(Long.MAX_VALUE);
            Answer refusal = answer;
            if (refusal != null && !exchange.isWaiting()) {
                throw refused("open a session", refusal);
            }
        }
    }

    private void describe(Optional<RigDescription> known) throws SessionException {
        Hello greeted = hello();
        if (known.isPresent() && known.get().digest() == greeted.digest) {
            RigDescription same = known.get();
            description = new RigDescription(
                    same.digest(), same.channels(), same.failSafes(), DescriptionItems.capacity(greeted));
            return;
        }
        List<Item> items = new ArrayList<>();
        for (int i = 0; i < greeted.items; i++) {
            item = null;
            call("describe itself", new ItemRequest(i));
            Item told = item;
            if (told == null || told.index != i) {
                throw new SessionException(
                        SessionException.Reason.REFUSED, "the rig did not tell item " + i + " of its description");
            }
            items.add(told);
        }
        try {
            description = DescriptionItems.description(greeted, items);
        } catch (IllegalArgumentException e) {
            throw new SessionException(SessionException.Reason.REFUSED, String.valueOf(e.getMessage()), e);
        }
    }

    private void watchAll() throws SessionException {
        int channels = description().channels().size();
        watched = IntStream.range(0, channels).toArray();
        for (int first = 0; first < channels; first += CHANNELS_PER_WATCH) {
            int[] some = IntStream.range(first, Math.min(channels, first + CHANNELS_PER_WATCH))
                    .toArray();
            call("watch its channels", new Watch(1, first, some));
        }
        live = new LiveReadings(watched, channels);
    }

    /**
     * The rig's greeting.
     *
     * @return the greeting that opened this session
     */
    public Hello hello() {
        Hello greeted = hello;
        if (greeted == null) {
            throw new IllegalStateException("not greeted yet");
        }
        return greeted;
    }

    /**
     * What the rig told of itself.
     *
     * @return its description
     */
    public RigDescription description() {
        RigDescription told = description;
        if (told == null) {
            throw new IllegalStateException("not described yet");
        }
        return told;
    }

    /**
     * The link's clock.
     *
     * @return microseconds since some moment
     */
    public long nowMicros() {
        return exchange.nowMicros();
    }

    /**
     * Loads the guards. They stay for the session, and watch from now on.
     *
     * @param guards in the order in which they are named
     * @throws SessionException if the rig refuses one
     */
    public void loadGuards(List<RigFile.GuardSpec> guards) throws SessionException {
        List<Guard> loaded = new ArrayList<>();
        for (RigFile.GuardSpec guard : guards) {
            Guard body = new Guard(
                    loaded.size(),
                    guard.kind().code(),
                    guard.channel().index(),
                    guard.a(),
                    guard.b(),
                    guard.windowTicks(),
                    (int) guard.timeMicros(),
                    guard.command().map(channel -> channel.index()).orElse(-1));
            call("take the guard \"" + guard.name() + "\"", body);
            loaded.add(body);
        }
        guardCount = loaded.size();
        guardDigest = RigProgram.digestOf(loaded);
    }

    /**
     * Brings the rig to ready: takes the lease, releases a latch where asked to, commands, and waits.
     *
     * @param ready how
     * @param releaseLatch true to release the latch of an earlier stop first
     * @throws SessionException if the rig does not come to ready in time
     */
    public void makeReady(RigFile.Ready ready, boolean releaseLatch) throws SessionException {
        takeLease();
        if (releaseLatch) {
            call("release its latch", new Do(Do.RELEASE_LATCH, -1, 0));
        }
        LiveReadings readings = readings();
        call("get ready", new Do(Do.COMMAND, ready.command().index(), 1));
        readings.forget();
        long until = nowMicros() + ready.withinMicros();
        while (!readings.hold(ready.condition())) {
            if (nowMicros() >= until) {
                throw new SessionException(
                        SessionException.Reason.SILENT,
                        "the rig did not come to ready (" + ready.condition().show() + ") in "
                                + ready.withinMicros() / 1000 + " ms");
            }
            work(until);
            failIfRestarted();
        }
    }

    /**
     * Loads a script's program and arms it. From then on all that the rig reports goes to the recorder.
     *
     * @param script checked against this rig's description
     * @param seed of noise, and of a virtual rig's variation
     * @return takes the trace
     * @throws SessionException if the rig refuses
     */
    public TraceRecorder arm(FaultScript script, int seed) throws SessionException {
        takeLease();
        RigProgram program = ProgramCompiler.compile(script);
        for (RequestBody message : program.messages()) {
            call("take a part of the script \"" + script.name() + "\"", message);
        }
        Answer armed = call(
                "be armed",
                new Arm(program.entries(), program.digest(), guardCount, guardDigest, seed),
                told -> recorder =
                        new TraceRecorder(description(), 1, watched.clone(), told.tick, told.micros, told.word));
        TraceRecorder to = recorder;
        if (to == null) {
            throw new IllegalStateException("armed at tick " + armed.tick + " without a recorder");
        }
        return to;
    }

    /** From now on nothing goes to the recorder any more. */
    public void endRecording() {
        recorder = null;
    }

    /**
     * Asks for the safe stop and waits until it has run and everything forced is dropped.
     *
     * @return true if a stop is latched on the rig: one that it made by itself
     * @throws SessionException if that is not confirmed in time: the lease will do it then
     */
    public boolean letGo() throws SessionException {
        leased = false;
        finishOutstanding();
        // It is answered once the stop has run; the time for that is bounded here, and not by the number of tries.
        exchange.ask(new LetGo(), (int) (settings.stopMicros() / settings.answerMicros()) + 1);
        answer = null;
        long until = nowMicros() + settings.stopMicros();
        while (answer == null) {
            if (nowMicros() >= until) {
                throw new SessionException(
                        SessionException.Reason.SILENT,
                        "the rig did not confirm its safe stop in " + settings.stopMicros() / 1000
                                + " ms; its lease ends by itself. Look at the machine before going near it");
            }
            workWithoutCancel(until);
            failIfRestarted();
        }
        refuseUnlessDone("let go", answer);
        return answer != null && answer.word == 1;
    }

    /**
     * One duty cycle: waits for what the rig says, hands it on, repeats what was not answered, renews the lease.
     *
     * @param untilMicros time on {@link #nowMicros()} until which to wait at most
     * @throws SessionException if the line is gone, the rig silent, or the user wants to stop
     */
    public void work(long untilMicros) throws SessionException {
        if (settings.cancelled().getAsBoolean()) {
            throw new SessionException(SessionException.Reason.CANCELLED, "stopped by the user");
        }
        workWithoutCancel(untilMicros);
    }

    private void workWithoutCancel(long untilMicros) throws SessionException {
        renewIfDue();
        exchange.repeatIfDue();
        // A renewal that waits for an answer must not be waited for: on a virtual rig no time would pass.
        boolean renews = leased && !exchange.isWaiting();
        long wake = exchange.wakeMicros(renews ? Math.min(untilMicros, renewMicros) : untilMicros);
        exchange.receive(wake, this::take);
    }

    private void renewIfDue() throws SessionException {
        if (leased && !exchange.isWaiting() && restart == null && nowMicros() >= renewMicros) {
            askForLease();
        }
    }

    private void takeLease() throws SessionException {
        if (!leased) {
            finishOutstanding();
            answer = null;
            askForLease();
            finishOutstanding();
            refuseUnlessDone("give a lease", answer);
            leased = true;
        }
    }

    private void askForLease() throws SessionException {
        TraceRecorder to = recorder;
        exchange.ask(new Keep(settings.leaseMillis(), to == null ? newestEvent : to.contiguousEvents()));
        renewMicros = nowMicros() + settings.leaseMillis() * 1000L / RENEWALS_PER_LEASE;
    }

    private Answer call(String what, RequestBody body) throws SessionException {
        return call(what, body, done -> {});
    }

    /** Asks and waits; what is to be done with the answer is done before anything behind it is taken. */
    private Answer call(String what, RequestBody body, Consumer<Answer> whenDone) throws SessionException {
        finishOutstanding();
        // On a slow line a long script must not outlive its lease while it is loaded.
        renewIfDue();
        finishOutstanding();
        answer = null;
        item = null;
        exchange.ask(body);
        onDone = whenDone;
        try {
            while (exchange.isWaiting()) {
                work(Long.MAX_VALUE);
                failIfRestarted();
            }
        } finally {
            onDone = done -> {};
        }
        Answer told = answer;
        if (told == null) {
            return new Answer(settings.nonce(), 0, 0, 0, 0, 0);
        }
        refuseUnlessDone(what, told);
        return told;
    }

    private void finishOutstanding() throws SessionException {
        while (exchange.isWaiting()) {
            workWithoutCancel(Long.MAX_VALUE);
            failIfRestarted();
        }
    }

    private void take(Reply reply) throws SessionException {
        if (reply instanceof Record part) {
            recorded(part);
        } else if (reply instanceof Event event) {
            happened(event);
        } else if (reply instanceof Answer told) {
            answered(told);
        } else if (reply instanceof Item told) {
            if (exchange.settles(told.session, told.number)) {
                item = told;
            }
        } else if (reply instanceof Hello told) {
            greeted(told);
        }
    }

    private void recorded(Record part) {
        LiveReadings readings = live;
        if (readings != null) {
            readings.take(part);
        }
        TraceRecorder to = recorder;
        if (to != null) {
            to.record(part);
        }
    }

    private void happened(Event event) {
        TraceRecorder to = recorder;
        if (to != null) {
            to.event(event);
        }
        if (event.number - newestEvent > 0) {
            newestEvent = event.number;
        }
    }

    private void answered(Answer told) throws SessionException {
        boolean isRenewal = leased && exchange.isWaitingFor(MessageType.KEEP);
        if (!exchange.settles(told.session, told.number)) {
            return;
        }
        answer = told;
        if (told.done()) {
            onDone.accept(told);
        } else if (told.code == Refusal.OTHER_BOOT.code()) {
            // The greeting of a restart is said once, and a bad line may have lost it.
            if (restart == null) {
                restarted(ResetCause.UNKNOWN);
            }
        } else if (isRenewal) {
            leased = false;
            throw refused("renew the lease", told);
        }
    }

    private void greeted(Hello told) {
        if (exchange.settles(told.session, told.number)) {
            hello = told;
            exchange.boot(told.boot);
        } else if (hello != null && told.boot != hello.boot) {
            ResetCause cause = ResetCause.of(told.cause);
            restarted(cause == null ? ResetCause.UNKNOWN : cause);
        }
    }

    private void restarted(ResetCause cause) {
        restart = cause;
        leased = false;
        exchange.giveUpOutstanding();
        TraceRecorder to = recorder;
        if (to != null) {
            to.restarted(cause);
        }
    }

    /**
     * Tells whether the controller restarted in this session. The session is good for nothing then; open another.
     *
     * @return why, if it did
     */
    public Optional<ResetCause> restart() {
        return Optional.ofNullable(restart);
    }

    private void failIfRestarted() throws SessionException {
        if (restart != null) {
            throw new SessionException(
                    SessionException.Reason.RESTARTED,
                    "the controller restarted ("
                            + restart.name().toLowerCase(Locale.ROOT).replace('_', '-') + ")");
        }
    }

    private LiveReadings readings() {
        LiveReadings readings = live;
        if (readings == null) {
            throw new IllegalStateException("nothing is watched yet");
        }
        return readings;
    }

    private static void refuseUnlessDone(String what, @Nullable Answer told) throws SessionException {
        if (told != null && !told.done()) {
            throw refused(what, told);
        }
    }

    private static SessionException refused(String what, Answer told) {
        return new SessionException(
                SessionException.Reason.REFUSED, "the rig would not " + what + ": " + Refusals.words(told));
    }
}
