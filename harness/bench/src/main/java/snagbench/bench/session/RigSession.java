package snagbench.bench.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import snagbench.bench.link.Link;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.DescriptionItems;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.Answer;
import snagbench.wire.Arm;
import snagbench.wire.Do;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Guard;
import snagbench.wire.Hello;
import snagbench.wire.Item;
import snagbench.wire.ItemRequest;
import snagbench.wire.Keep;
import snagbench.wire.LeftOut;
import snagbench.wire.LetGo;
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
public final class RigSession implements AutoCloseable {
    private static final int CHANNELS_PER_WATCH = 16;
    private static final int RENEWALS_PER_LEASE = 4;
    private static final long BUSY_PAUSE_MICROS = 50_000;

    /** A board may restart more than once when its port is opened: the computer and its driver both move the lines. */
    private static final int MOST_STARTS = 3;

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
    private Consumer<Record> observer = part -> {};
    private boolean leased;
    private boolean renews;
    private boolean leaseRanOut;
    private int newestBeforeLease;
    private @Nullable Answer renewalRefused;
    private long renewMicros;
    private long armedMicros;
    private @Nullable ClockReading lastReading;

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
        for (int starts = 1; ; starts++) {
            RigSession session = new RigSession(link, settings.again(starts));
            try {
                session.greet();
                session.describe(known);
                session.watch(1);
                return session;
            } catch (SessionException e) {
                // A board that restarts because its port was opened is greeted anew: nothing has moved yet.
                if (e.reason() != SessionException.Reason.RESTARTED || starts == MOST_STARTS) {
                    throw e;
                }
            }
        }
    }

    private void greet() throws SessionException {
        long busyUntil = nowMicros() + settings.busyMicros();
        askToOpen();
        while (hello == null) {
            work(Long.MAX_VALUE);
            exchange.failIfUnreadable();
            Answer refusal = answer;
            if (refusal != null && !exchange.isWaiting()) {
                if (!mayPass(refusal) || nowMicros() >= busyUntil) {
                    throw refused("open a session", refusal);
                }
                pause();
                askToOpen();
            }
        }
    }

    private void askToOpen() throws SessionException {
        answer = null;
        exchange.boot(0);
        exchange.beginAgain();
        int tries = (int) Math.max(1, settings.greetingMicros() / settings.answerMicros());
        exchange.ask(new Open(Wire.VERSION, Wire.VERSION), tries);
    }

    /** What keeps the rig from a session may be over soon: a lease that nobody renews, and the stop behind it. */
    private static boolean mayPass(Answer refusal) {
        return refusal.code == Refusal.BUSY.code() || refusal.code == Refusal.NOT_NOW.code();
    }

    private void pause() throws SessionException {
        rest(BUSY_PAUSE_MICROS);
    }

    /**
     * Lets time pass on the link's clock, and only listens. A restart of the controller does not end it.
     *
     * @param micros how long
     * @throws SessionException if the line is gone, or the user wants to stop
     */
    public void rest(long micros) throws SessionException {
        long until = nowMicros() + micros;
        while (nowMicros() < until) {
            work(until);
        }
    }

    /**
     * Waits until the rig's readings hold a condition; nothing is commanded and no lease taken for that. Only readings that come
     * from now on count.
     *
     * @param condition of plain comparisons; nothing else ever holds here
     * @param mostMicros how long to wait at most
     * @return true once it holds; false if it did not in that time
     * @throws SessionException if the line is gone, the controller restarted, or the user wants to stop
     */
    public boolean waitForReadings(Condition condition, long mostMicros) throws SessionException {
        LiveReadings readings = readings();
        readings.forget();
        long until = nowMicros() + mostMicros;
        while (!readings.hold(condition)) {
            if (nowMicros() >= until) {
                return false;
            }
            work(until);
            failIfRestarted();
        }
        return true;
    }

    /**
     * What a channel read last.
     *
     * @param channel of this rig
     * @return in the channel's steps; empty until a record has come
     */
    public OptionalInt real(ChannelDescription channel) {
        return readings().real(channel);
    }

    private void describe(Optional<RigDescription> known) throws SessionException {
        Hello greeted = hello();
        if (known.isPresent() && known.get().digest() == greeted.digest) {
            RigDescription same = known.get();
            description = new RigDescription(
                    same.digest(), same.channels(), same.failSafes(), DescriptionItems.capacity(greeted));
            return;
        }
        if (greeted.items == 0) {
            throw new SessionException(
                    SessionException.Reason.REFUSED,
                    String.format(
                            Locale.ROOT,
                            "the rig's build has no description in it, and none with its digest %08x is stored: store"
                                    + " one by \"identify\" from a build of the same tables that has it",
                            greeted.digest));
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

    /**
     * Has all channels recorded from now on.
     *
     * @param periodTicks a record every so many ticks, from 1
     * @return a reading of the rig's clock for each request that this took and that was answered at once
     * @throws SessionException if the rig refuses, or is lost
     */
    public List<ClockReading> watch(int periodTicks) throws SessionException {
        if (periodTicks > 1 && LeftOut.PERIODS.isIn(description().limits().kinds())) {
            throw new SessionException(
                    SessionException.Reason.REFUSED,
                    "the rig's probe records every tick or none: records of " + periodTicks
                            + " ticks are left out of it");
        }
        int channels = description().channels().size();
        List<ClockReading> readings = new ArrayList<>();
        watched = IntStream.range(0, channels).toArray();
        for (int first = 0; first < channels; first += CHANNELS_PER_WATCH) {
            int[] some = IntStream.range(first, Math.min(channels, first + CHANNELS_PER_WATCH))
                    .toArray();
            call("watch its channels", new Watch(periodTicks, first, some), told -> {
                if (!exchange.wasRepeated()) {
                    readings.add(new ClockReading(exchange.askedMicros(), told.micros, exchange.receivedMicros()));
                }
            });
        }
        live = new LiveReadings(watched, channels);
        return readings;
    }

    /**
     * What the control code was told last of a channel.
     *
     * @param channel of this rig
     * @return in the channel's steps; empty until a record has come
     */
    public OptionalInt told(ChannelDescription channel) {
        return readings().told(channel);
    }

    /**
     * Has somebody see each record, or part of one, as it comes.
     *
     * @param sees takes it
     */
    public void observe(Consumer<Record> sees) {
        observer = sees;
    }

    /**
     * How well the line carries this session.
     *
     * @return frames that came damaged, and requests that had to be sent again
     */
    public LineTroubles troubles() {
        return new LineTroubles(exchange.badFrames(), exchange.repeated());
    }

    /**
     * What the line did to a session.
     *
     * @param badFrames frames that came damaged
     * @param repeatedRequests how often a request had to be sent again
     */
    public record LineTroubles(long badFrames, long repeatedRequests) {}

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
            releaseLatch();
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
     * Releases the latch of an earlier stop; nothing moves by that.
     *
     * @throws SessionException if the rig refuses
     */
    public void releaseLatch() throws SessionException {
        takeLease();
        call("release its latch", new Do(Do.RELEASE_LATCH, -1, 0));
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
        Optional<String> missing =
                Abilities.missing(program, description().limits().kinds());
        if (missing.isPresent()) {
            throw new SessionException(
                    SessionException.Reason.REFUSED,
                    "the rig's probe cannot do \"" + missing.get() + "\", which the script \"" + script.name()
                            + "\" wants: its greeting says that its build has it not");
        }
        for (RequestBody message : program.messages()) {
            call("take a part of the script \"" + script.name() + "\"", message);
        }
        // The rig is armed no earlier than it is asked: so the host can tell by when a restart had been.
        armedMicros = nowMicros();
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

    /**
     * From now on what the rig reports goes to the part behind the restart of an earlier session's trace. That wants no lease,
     * and nothing moves by it.
     *
     * @param before has noted the restart
     */
    public void recordAfterRestart(TraceRecorder before) {
        recorder = before.afterRestart(watched);
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
     * Ends the session, whatever state it is in: a rig that holds a lease is asked for its safe stop, and that is waited for.
     * Where that cannot be, its lease ends by itself.
     */
    @Override
    public void close() {
        if (leased && restart == null) {
            try {
                letGo();
            } catch (SessionException e) {
                // Whoever closes has a result or a failure to tell already; the lease does the rest.
                leased = false;
            }
        }
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
        boolean renewsNext = leased && !exchange.isWaiting();
        long wake = exchange.wakeMicros(renewsNext ? Math.min(untilMicros, renewMicros) : untilMicros);
        exchange.receive(wake, this::take);
        Answer refusal = renewalRefused;
        if (refusal != null) {
            renewalRefused = null;
            leased = false;
            throw refused("renew the lease", refusal);
        }
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
            leaseRanOut = false;
            newestBeforeLease = newestEvent;
            askForLease();
            finishOutstanding();
            refuseUnlessDone("give a lease", answer);
            leased = true;
        }
    }

    private void askForLease() throws SessionException {
        TraceRecorder to = recorder;
        renews = leased;
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
        if (!told.done()) {
            hearOfTheLease();
        }
        refuseUnlessDone(what, told);
        return told;
    }

    /** A lease that ran out explains a refusal. Where the event that tells of it was lost, a renewal has it sent again. */
    private void hearOfTheLease() throws SessionException {
        if (!leased || leaseRanOut || restart != null) {
            return;
        }
        long until = nowMicros() + settings.leaseMillis() * 1000L / RENEWALS_PER_LEASE;
        askForLease();
        while (!leaseRanOut && nowMicros() < until) {
            workWithoutCancel(until);
        }
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
        observer.accept(part);
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
        leaseRanOut |= event.number - newestBeforeLease > 0 && event.kind == EventKind.LEASE.code() && event.a == 0;
    }

    private void answered(Answer told) {
        if (!exchange.settles(told.session, told.number)) {
            return;
        }
        boolean renewal = renews;
        renews = false;
        answer = told;
        if (told.done()) {
            if (!exchange.wasRepeated()) {
                lastReading = new ClockReading(exchange.askedMicros(), told.micros, exchange.receivedMicros());
            }
            onDone.accept(told);
        } else if (told.code == Refusal.OTHER_BOOT.code()) {
            // Its greeting was lost, or nobody had the port open then; where it came, it told more.
            if (restart == null) {
                restarted(ResetCause.UNKNOWN);
            }
        } else if (renewal) {
            renewalRefused = told;
        }
    }

    private void greeted(Hello told) {
        if (exchange.settles(told.session, told.number)) {
            hello = told;
            exchange.boot(told.boot);
        } else if (hello == null) {
            // It has just started, and has not heard what it was asked before.
            exchange.askAgainSoon();
        } else if (told.boot != hello.boot) {
            ResetCause cause = ResetCause.of(told.cause);
            restarted(cause == null ? ResetCause.UNKNOWN : cause);
        }
    }

    private void restarted(ResetCause cause) {
        // A refusal behind the greeting tells less than that did.
        if (restart == null || restart == ResetCause.UNKNOWN) {
            restart = cause;
        }
        exchange.giveUpOutstanding();
        TraceRecorder to = recorder;
        if (to != null) {
            to.restarted(cause, leased ? OptionalLong.of(latestRestartMicros(to)) : OptionalLong.empty());
        }
        leased = false;
    }

    /**
     * By when it had restarted, in microseconds since arming on the rig's clock. The two clocks need not run alike (one may be
     * coarse, and an emulator on a busy computer falls behind), so it is counted from the last answer: the rig read its clock for
     * that no earlier than it was asked. What they differ by since then is taken as nothing.
     */
    private long latestRestartMicros(TraceRecorder to) {
        long now = nowMicros();
        ClockReading reading = lastReading;
        return reading == null || reading.sentMicros() < armedMicros
                ? now - armedMicros
                : to.sinceArming(reading.rigMicros()) + now - reading.sentMicros();
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

    private void refuseUnlessDone(String what, @Nullable Answer told) throws SessionException {
        if (told != null && !told.done()) {
            throw refused(what, told);
        }
    }

    private SessionException refused(String what, Answer told) {
        // A rig whose lease has run out drops what was loaded: whatever it then says of a request hangs on that.
        String why = leaseRanOut
                ? "its lease of " + settings.leaseMillis()
                        + " ms ran out before that, so it has stopped, latched and dropped"
                        + " what was loaded; this computer was kept from renewing it, or the line is too slow"
                : Refusals.words(told);
        SessionException.Reason reason = told.code == Refusal.LATCHED.code() && !leaseRanOut
                ? SessionException.Reason.LATCHED
                : SessionException.Reason.REFUSED;
        return new SessionException(reason, "the rig would not " + what + ": " + why);
    }
}
