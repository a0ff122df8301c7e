package snagbench.probe;

import snagbench.wire.Arm;
import snagbench.wire.ChannelKind;
import snagbench.wire.Comparison;
import snagbench.wire.CborReader;
import snagbench.wire.Do;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.FrameReader;
import snagbench.wire.Guard;
import snagbench.wire.GuardKind;
import snagbench.wire.Hello;
import snagbench.wire.Item;
import snagbench.wire.ItemRequest;
import snagbench.wire.MessageType;
import snagbench.wire.Open;
import snagbench.wire.ProgramDigest;
import snagbench.wire.Record;
import snagbench.wire.Refusal;
import snagbench.wire.Request;
import snagbench.wire.RequestBody;
import snagbench.wire.RequestHeader;
import snagbench.wire.Term;
import snagbench.wire.TermRole;
import snagbench.wire.Timing;
import snagbench.wire.Watch;
import snagbench.wire.Wire;

/**
 * The requests of the bench: which belong to this session and boot, which may be done now, and what they do. A request
 * that comes again is answered again and not done twice.
 */
final class Session {
    private static final int DONE = 0;

    private final Description description;
    private final Controller controller;
    private final ProbeLimits limits;
    private final Arming arming;
    private final Program program;
    private final Guards guards;
    private final EventRing events;
    private final Answers answers;
    private final Stopping stopping;
    private final Lease lease;
    private final Recording recording;
    private final Readings readings;
    private final Sender sender;

    private final FrameReader frames;
    private final RequestHeader header = new RequestHeader();
    private final ProgramDigest programDigest = new ProgramDigest();
    private final ProgramDigest guardDigest = new ProgramDigest();

    private int session;
    private int lastNumber;
    private boolean armed;
    private boolean lettingGo;
    private int commanded = -1;
    private int commandedValue;
    private int word;
    private int tick;
    private int tickMicros;

    Session(
            Description description,
            Controller controller,
            ProbeLimits limits,
            Arming arming,
            Program program,
            Guards guards,
            EventRing events,
            Answers answers,
            Stopping stopping,
            Lease lease,
            Recording recording,
            Readings readings,
            Sender sender) {
        this.description = description;
        this.controller = controller;
        this.limits = limits;
        this.arming = arming;
        this.program = program;
        this.guards = guards;
        this.events = events;
        this.answers = answers;
        this.stopping = stopping;
        this.lease = lease;
        this.recording = recording;
        this.readings = readings;
        this.sender = sender;
        this.frames = new FrameReader(limits.frame);
    }

    void greet() {
        sender.greet(hello());
    }

    boolean isArmed() {
        return armed;
    }

    boolean wantsToLetGo() {
        return lettingGo;
    }

    /** Channel that a command outside a program tells in this tick; -1 for none. */
    int commanded() {
        return commanded;
    }

    int commandedValue() {
        return commandedValue;
    }

    int flags() {
        return (armed ? Record.ARMED : 0)
                | (lease.lives() ? Record.LEASED : 0)
                | (stopping.isRunning() ? Record.STOPPING : 0)
                | (stopping.isLatched() ? Record.LATCHED : 0)
                | (events.lost() ? Record.EVENTS_LOST : 0)
                | (program.hasEnded() ? Record.PROGRAM_ENDED : 0);
    }

    void beginTick(int newTick, int newTickMicros) {
        tick = newTick;
        tickMicros = newTickMicros;
        commanded = -1;
    }

    void accept(byte next) {
        if (!frames.accept(next)) {
            return;
        }
        CborReader in = frames.payload();
        if (header.read(in)) {
            handle(in);
        }
    }

    /** The safe stop is done: the program is gone, and a let-go that asked for it is answered. */
    void stopped() {
        armed = false;
        programDigest.clear();
        if (lettingGo) {
            lettingGo = false;
            lease.end();
            sender.answer(session, lastNumber, DONE, stopping.isLatched() ? 1 : 0, tick, tickMicros);
        }
    }

    private void handle(CborReader in) {
        boolean opens = header.type == MessageType.OPEN.code();
        if (header.session == 0) {
            return;
        }
        if (!opens && header.boot != controller.bootId) {
            refuse(Refusal.OTHER_BOOT, 0);
            return;
        }
        if (header.session != session && !opens) {
            refuse(Refusal.OTHER_SESSION, 0);
            return;
        }
        if (header.session == session && header.number == lastNumber) {
            if (!lettingGo) {
                sender.repeatAnswer();
            }
            return;
        }
        if (header.session == session && header.number - lastNumber < 0) {
            return;
        }
        if (opens) {
            open(in);
            return;
        }
        lastNumber = header.number;
        word = 0;
        if (header.type == MessageType.KEEP.code()) {
            answer(keep(in));
            return;
        }
        RequestBody body = Request.readBody(header.type, in, header.fields);
        if (body == null) {
            refuse(Refusal.UNKNOWN_REQUEST, header.type);
        } else if (!in.complete() || body.fields() != header.fields) {
            refuse(Refusal.MALFORMED, Math.min(header.fields, body.fields()));
        } else {
            perform(body);
        }
    }

    private void refuse(Refusal why, int itsWord) {
        sender.answer(header.session, header.number, why.code(), itsWord, tick, tickMicros);
    }

    private void answer(int code) {
        sender.answer(session, lastNumber, code, word, tick, tickMicros);
    }

    private void open(CborReader in) {
        Open body = (Open) Request.readBody(header.type, in, header.fields);
        if (body == null || !in.complete() || header.fields != body.fields()) {
            refuse(Refusal.MALFORMED, header.fields);
        } else if (lease.lives() && header.session != session) {
            refuse(Refusal.BUSY, lease.millisLeft(tickMicros));
        } else if (stopping.isRunning() || armed) {
            refuse(Refusal.NOT_NOW, 0);
        } else if (Wire.VERSION < body.lowestVersion || Wire.VERSION > body.highestVersion) {
            refuse(Refusal.UNKNOWN_KIND, Wire.VERSION);
        } else {
            session = header.session;
            lastNumber = header.number;
            program.clear();
            programDigest.clear();
            guards.clear();
            guardDigest.clear();
            recording.clear();
            events.forget();
            sender.answer(hello());
        }
    }

    private Hello hello() {
        return new Hello(
                session,
                session == 0 ? 0 : lastNumber,
                Wire.VERSION,
                controller.bootId,
                controller.cause.code(),
                controller.real ? 1 : 0,
                description.digest(),
                description.items().size(),
                description.channels().size(),
                controller.tickMicros,
                limits.slots,
                limits.terms,
                limits.points,
                limits.guards,
                limits.ring,
                limits.frame,
                FaultArithmetic.kinds(),
                controller.build);
    }

    /** Read field by field, so that renewing the lease allocates nothing. */
    private int keep(CborReader in) {
        int millis = in.int32();
        int seen = in.uint32();
        if (!in.complete() || header.fields != 2 || millis < 1 || millis > Lease.LONGEST_MILLIS) {
            return Refusal.MALFORMED.code();
        }
        boolean taken = !lease.lives();
        lease.keep(tickMicros, millis);
        events.seenUpTo(seen);
        if (taken) {
            events.add(tick, tickMicros, EventKind.LEASE, 1, 0);
        }
        word = events.newest();
        return DONE;
    }

    private void perform(RequestBody body) {
        if (body.type() == MessageType.LET_GO) {
            if (!lettingGo) {
                lettingGo = true;
            }
            return;
        }
        if (armed || stopping.isRunning()) {
            answer(Refusal.NOT_NOW.code());
            return;
        }
        switch (body.type()) {
            case ITEM_REQUEST:
                item((ItemRequest) body);
                break;
            case WATCH:
                answer(watch((Watch) body));
                break;
            case ENTRY:
                answer(loaded(programDigest, entry((Entry) body)));
                break;
            case TIMING:
                answer(loaded(programDigest, timing((Timing) body)));
                break;
            case TERM:
                answer(loaded(programDigest, term((Term) body)));
                break;
            case POINT:
                answer(Refusal.UNKNOWN_KIND.code());
                break;
            case GUARD:
                answer(loaded(guardDigest, guard((Guard) body)));
                break;
            case ARM:
                answer(arm((Arm) body));
                break;
            case DO:
                answer(command((Do) body));
                break;
            default:
                refuse(Refusal.UNKNOWN_REQUEST, header.type);
                break;
        }
    }

    /** Adds a message to its digest if it was taken. */
    private int loaded(ProgramDigest digest, int code) {
        if (code == DONE) {
            int end = frames.payload().position();
            digest.add(header.type, frames.bytes(), end - fieldBytes(end), end);
        }
        return code;
    }

    /** Bytes of the fields behind the header of the frame at hand. */
    private int fieldBytes(int end) {
        CborReader again = new CborReader();
        again.reset(frames.bytes(), 0, end);
        new RequestHeader().read(again);
        return end - again.position();
    }

    private void item(ItemRequest asked) {
        if (asked.index < 0 || asked.index >= description.items().size()) {
            answer(malformed(0));
            return;
        }
        sender.answer(description.items().get(asked.index).answering(session, lastNumber));
    }

    private int watch(Watch watch) {
        int[] channels = watch.channels();
        if (watch.periodTicks < 1 || watch.periodTicks > 0xFFFF) {
            return malformed(0);
        }
        if (watch.first != 0 && watch.first != recording.watchedCount() || watch.first < 0) {
            return malformed(1);
        }
        if (watch.first + channels.length > recording.capacity()) {
            word = recording.capacity();
            return Refusal.NO_ROOM.code();
        }
        for (int i = 0; i < channels.length; i++) {
            if (!isChannel(channels[i])) {
                return malformed(2 + i);
            }
        }
        recording.watch(watch.periodTicks, watch.first, channels);
        return DONE;
    }

    private int entry(Entry entry) {
        EntryKind kind = EntryKind.of(entry.kind);
        if (kind == null || (FaultArithmetic.kinds() >>> kind.code() & 1) == 0) {
            word = entry.kind;
            return Refusal.UNKNOWN_KIND.code();
        }
        if (!program.hasRoomForEntry()) {
            word = limits.slots;
            return Refusal.NO_ROOM.code();
        }
        if (entry.index != program.slotCount()) {
            return malformed(0);
        }
        if (kind == EntryKind.WAIT ? entry.channel != -1 : !isChannel(entry.channel)) {
            return malformed(2);
        }
        if (entry.leader < -1 || entry.leader >= entry.index || entry.leader >= 0 && isStageOrFollower(entry.leader)) {
            return malformed(5);
        }
        if (entry.after < -1
                || entry.after >= entry.index
                || entry.after >= 0 && (program.entry(entry.after).flags & Entry.STAGE) == 0) {
            return malformed(6);
        }
        if (entry.lastsMicros < 0) {
            return malformed(7);
        }
        if (kind != EntryKind.WAIT && !mayForce(entry.channel, kind)) {
            word = entry.channel;
            return Refusal.NOT_ALLOWED.code();
        }
        program.add(entry, kind);
        return DONE;
    }

    private boolean isStageOrFollower(int index) {
        Entry other = program.entry(index);
        return (other.flags & Entry.STAGE) != 0 || other.leader >= 0;
    }

    private boolean mayForce(int channel, EntryKind kind) {
        Channel forced = description.channels().get(channel);
        switch (forced.kind()) {
            case STATE:
            case COUNTER:
                return false;
            case ACTUATOR:
                return (forced.flags() & Item.MAY_BE_WEAKENED) != 0
                        && (kind == EntryKind.SCALE || kind == EntryKind.STUCK_AT);
            default:
                return true;
        }
    }

    private int timing(Timing timing) {
        if (timing.entry < 0 || timing.entry >= program.slotCount()) {
            return malformed(0);
        }
        if (timing.forMicros < 0 || timing.delayMicros < 0) {
            return malformed(timing.forMicros < 0 ? 1 : 2);
        }
        if (timing.onMicros != 0 || timing.offMicros != 0) {
            return Refusal.UNKNOWN_KIND.code();
        }
        if (timing.occasion < 1 || timing.times < 0) {
            return malformed(timing.occasion < 1 ? 5 : 6);
        }
        program.set(timing);
        return DONE;
    }

    private int term(Term term) {
        Comparison comparison = Comparison.of(term.comparison);
        TermRole role = TermRole.of(term.role);
        if (comparison == null || role == null) {
            word = comparison == null ? term.comparison : term.role;
            return Refusal.UNKNOWN_KIND.code();
        }
        if (!program.hasRoomForTerm()) {
            word = limits.terms;
            return Refusal.NO_ROOM.code();
        }
        if (term.entry < 0 || term.entry >= program.slotCount()) {
            return malformed(0);
        }
        if (comparison == Comparison.ANSWERED ? term.channel != -1 : !isChannel(term.channel)) {
            return malformed(2);
        }
        boolean windowed = comparison == Comparison.FASTER_THAN || comparison == Comparison.SLOWER_THAN;
        if (windowed && (term.windowTicks < 1 || term.windowTicks > Readings.LONGEST_WINDOW)) {
            return malformed(6);
        }
        program.add(term, comparison, role);
        return DONE;
    }

    private int guard(Guard guard) {
        GuardKind kind = GuardKind.of(guard.kind);
        if (kind == null) {
            word = guard.kind;
            return Refusal.UNKNOWN_KIND.code();
        }
        if (guards.isFull()) {
            word = limits.guards;
            return Refusal.NO_ROOM.code();
        }
        if (guard.index != guards.count()) {
            return malformed(0);
        }
        if (!isChannel(guard.channel)) {
            return malformed(2);
        }
        boolean windowed = kind != GuardKind.TRAVEL;
        if (windowed && (guard.windowTicks < 1 || guard.windowTicks > Readings.LONGEST_WINDOW)) {
            return malformed(5);
        }
        if (guard.timeMicros < 0) {
            return malformed(6);
        }
        if (kind == GuardKind.STALL && !isChannel(guard.command)) {
            return malformed(7);
        }
        guards.add(guard);
        return DONE;
    }

    private int arm(Arm arm) {
        if (stopping.isLatched()) {
            return latched();
        }
        if (!lease.lives()) {
            return Refusal.NO_LEASE.code();
        }
        if (arm.entries != program.slotCount() || arm.entries == 0 || arm.digest != programDigest.value()) {
            word = programDigest.value();
            return Refusal.MISMATCH.code();
        }
        if (arm.guards != guards.count() || arm.guardDigest != guardDigest.value()) {
            word = guardDigest.value();
            return Refusal.MISMATCH.code();
        }
        int unguarded = controller.real ? unguardedChannel() : -1;
        if (unguarded >= 0) {
            word = unguarded;
            return Refusal.NEEDS_GUARD.code();
        }
        if (!arming.isEnabled()) {
            return Refusal.NOT_ENABLED.code();
        }
        armed = true;
        events.forgetLoss();
        answers.arm();
        program.arm(tickMicros);
        readings.forgetHistory();
        recording.restartPeriod();
        arming.armed(arm.seed);
        word = events.newest();
        events.add(tick, tickMicros, EventKind.ARMED, arm.entries, arm.seed);
        return DONE;
    }

    /** A channel that closes a control loop, is under a lasting fault and has no guard; -1 for none. */
    private int unguardedChannel() {
        for (int i = 0; i < program.slotCount(); i++) {
            Entry entry = program.entry(i);
            boolean lasts = (entry.flags & Entry.ONE_TICK) == 0;
            if (entry.channel >= 0
                    && lasts
                    && (description.channels().get(entry.channel).flags() & Item.CLOSES_LOOP) != 0
                    && !guards.watches(entry.channel)) {
                return entry.channel;
            }
        }
        return -1;
    }

    private int command(Do command) {
        if (!lease.lives()) {
            return Refusal.NO_LEASE.code();
        }
        if (command.what == Do.RELEASE_LATCH) {
            stopping.releaseLatch();
            guards.allowWayBack(readings);
            return DONE;
        }
        if (command.what != Do.COMMAND) {
            word = command.what;
            return Refusal.UNKNOWN_KIND.code();
        }
        if (stopping.isLatched()) {
            return latched();
        }
        if (!isChannel(command.channel)
                || description.channels().get(command.channel).kind() != ChannelKind.COMMAND) {
            return malformed(1);
        }
        if (!arming.isEnabled()) {
            return Refusal.NOT_ENABLED.code();
        }
        commanded = command.channel;
        commandedValue = command.value;
        return DONE;
    }

    private int latched() {
        word = stopping.latchedFor().code();
        return Refusal.LATCHED.code();
    }

    private int malformed(int field) {
        word = field;
        return Refusal.MALFORMED.code();
    }

    private boolean isChannel(int index) {
        return index >= 0 && index < description.channels().size();
    }
}
