package snagbench.probe;

import snagbench.wire.Arm;
import snagbench.wire.CborReader;
import snagbench.wire.Do;
import snagbench.wire.Entry;
import snagbench.wire.EventKind;
import snagbench.wire.FrameReader;
import snagbench.wire.Guard;
import snagbench.wire.ItemRequest;
import snagbench.wire.MessageType;
import snagbench.wire.Open;
import snagbench.wire.Point;
import snagbench.wire.ProgramDigest;
import snagbench.wire.Refusal;
import snagbench.wire.Request;
import snagbench.wire.RequestBody;
import snagbench.wire.RequestHeader;
import snagbench.wire.Term;
import snagbench.wire.Timing;
import snagbench.wire.Watch;
import snagbench.wire.Wire;

/**
 * The requests of the bench: which belong to this session and boot, which may be done now, and who does them. A request
 * that comes again is answered again and not done twice.
 */
final class Session {
    private final Description description;
    private final Greeting greeting;
    private final int bootId;
    private final ProbeState state;
    private final ProgramLoading programLoading;
    private final GuardLoading guardLoading;
    private final Orders orders;
    private final Sender sender;

    private final FrameReader frames;
    private final RequestHeader header = new RequestHeader();
    private final Outcome outcome = new Outcome();
    private int bodyFrom;

    private int session;
    private int lastNumber;
    private boolean lettingGo;
    private int letGoNumber;
    private boolean commanding;
    private int commandNumber;
    private int tick;
    private int tickMicros;

    Session(
            Description description,
            Controller controller,
            ProbeLimits limits,
            ProbeState state,
            ProgramLoading programLoading,
            GuardLoading guardLoading,
            Orders orders,
            Sender sender) {
        this.description = description;
        this.greeting = new Greeting(description, controller, limits);
        this.bootId = controller.bootId;
        this.state = state;
        this.programLoading = programLoading;
        this.guardLoading = guardLoading;
        this.orders = orders;
        this.sender = sender;
        this.frames = new FrameReader(limits.frame);
    }

    /** Greets at boot, once it is sure that greeting and description fit the frames. */
    void greet() {
        sender.requireFits("greeting", greeting.atItsLongest());
        for (int i = 0; i < description.items().size(); i++) {
            sender.requireFits("item " + i, description.items().get(i).answering(-1, 0xFFFF));
        }
        sender.greet(greeting.in(0, 0));
    }

    boolean wantsToLetGo() {
        return lettingGo;
    }

    void beginTick(int newTick, int newTickMicros) {
        tick = newTick;
        tickMicros = newTickMicros;
    }

    void accept(byte next) {
        if (!frames.accept(next)) {
            return;
        }
        CborReader in = frames.payload();
        if (header.read(in)) {
            bodyFrom = in.position();
            handle(in);
        }
    }

    /** A command is answered when the control code has had its chance to take it. */
    void endTick() {
        if (commanding) {
            commanding = false;
            int channel = orders.commanded();
            if (channel >= 0 && state.readings.readNow[channel]) {
                outcome.done();
            } else {
                outcome.refused(Refusal.NOT_NOW, 1);
            }
            answer(commandNumber);
        }
    }

    /** The safe stop is done and the program gone: a let-go that asked for it is answered. */
    void released() {
        programLoading.clear();
        if (lettingGo) {
            lettingGo = false;
            state.lease.end();
            outcome.done(state.stopping.isLatched() ? 1 : 0);
            answer(letGoNumber);
        }
    }

    private void handle(CborReader in) {
        boolean opens = header.type == MessageType.OPEN.code();
        boolean ours = header.session == session;
        if (header.session == 0) {
            return;
        }
        if (!opens && header.boot != bootId) {
            refuseAside(Refusal.OTHER_BOOT, 0);
        } else if (!opens && !ours) {
            refuseAside(Refusal.OTHER_SESSION, 0);
        } else if (ours && header.number == lastNumber) {
            if (!isWorkedOn(lastNumber)) {
                sender.repeatAnswer();
            }
        } else if (ours && header.number - lastNumber < 0) {
            return;
        } else if (opens) {
            open(in);
        } else {
            lastNumber = header.number;
            perform(in);
        }
    }

    private boolean isWorkedOn(int number) {
        return (lettingGo && number == letGoNumber) || (commanding && number == commandNumber);
    }

    /** Refuses what is no request of this session: the session's own last answer stays, to be given again. */
    private void refuseAside(Refusal why, int word) {
        sender.answerAside(header.session, header.number, why.code(), word, tick, tickMicros);
    }

    private void answer(int number) {
        if (number == lastNumber) {
            sender.answer(session, number, outcome.code(), outcome.word(), tick, tickMicros);
        } else {
            sender.answerAside(session, number, outcome.code(), outcome.word(), tick, tickMicros);
        }
    }

    private void open(CborReader in) {
        Open body = (Open) Request.readBody(header.type, in, header.fields);
        if (body == null || !in.complete() || body.fields() != header.fields) {
            refuseAside(Refusal.MALFORMED, header.fields);
        } else if (state.lease.lives() && header.session != session) {
            refuseAside(Refusal.BUSY, state.lease.millisLeft(tickMicros));
        } else if (state.stopping.isRunning() || state.program.isArmed()) {
            refuseAside(Refusal.NOT_NOW, 0);
        } else if (Wire.VERSION < body.lowestVersion || Wire.VERSION > body.highestVersion) {
            refuseAside(Refusal.UNKNOWN_KIND, Wire.VERSION);
        } else {
            session = header.session;
            lastNumber = header.number;
            programLoading.clear();
            guardLoading.clear();
            state.recording.clear();
            state.events.forget();
            sender.open();
            sender.answer(greeting.in(session, lastNumber));
        }
    }

    /** While a program is armed, only the lease and letting go are looked at, and both without making anything. */
    private void perform(CborReader in) {
        if (header.type == MessageType.KEEP.code()) {
            keep(in);
        } else if (header.type == MessageType.LET_GO.code() && header.fields == 0) {
            lettingGo = true;
            letGoNumber = lastNumber;
        } else if (state.program.isArmed() || state.stopping.isRunning()) {
            outcome.refused(Refusal.NOT_NOW, 0);
        } else {
            RequestBody body = Request.readBody(header.type, in, header.fields);
            if (body == null) {
                outcome.refused(Refusal.UNKNOWN_REQUEST, header.type);
            } else if (!in.complete() || body.fields() != header.fields) {
                outcome.malformed(Math.min(header.fields, body.fields()));
            } else if (body.type() == MessageType.ITEM_REQUEST && isItem((ItemRequest) body)) {
                int index = ((ItemRequest) body).index;
                sender.answer(description.items().get(index).answering(session, lastNumber));
                return;
            } else {
                perform(body);
            }
        }
        if (!isWorkedOn(lastNumber)) {
            answer(lastNumber);
        }
    }

    private void keep(CborReader in) {
        int millis = in.int32();
        int seen = in.uint32();
        if (!in.complete() || header.fields != 2) {
            outcome.malformed(Math.min(header.fields, 2));
            return;
        }
        if (millis < 1 || millis > Wire.LONGEST_LEASE_MILLIS) {
            outcome.malformed(0);
            return;
        }
        boolean taken = !state.lease.lives();
        state.lease.keep(tickMicros, millis);
        state.events.seenUpTo(seen);
        if (taken) {
            state.events.add(tick, tickMicros, EventKind.LEASE, 1, 0);
        }
        outcome.done(state.events.newest());
    }

    private boolean isItem(ItemRequest asked) {
        return asked.index >= 0 && asked.index < description.items().size();
    }

    private void perform(RequestBody body) {
        switch (body.type()) {
            case ITEM_REQUEST:
                outcome.malformed(0);
                break;
            case WATCH:
                state.recording.watch((Watch) body, outcome);
                break;
            case ENTRY:
                programLoading.entry((Entry) body, outcome);
                addTo(programLoading.digest());
                break;
            case TIMING:
                programLoading.timing((Timing) body, outcome);
                addTo(programLoading.digest());
                break;
            case TERM:
                programLoading.term((Term) body, outcome);
                addTo(programLoading.digest());
                break;
            case POINT:
                programLoading.point((Point) body, outcome);
                addTo(programLoading.digest());
                break;
            case GUARD:
                guardLoading.guard((Guard) body, outcome);
                addTo(guardLoading.digest());
                break;
            case ARM:
                orders.arm((Arm) body, tick, tickMicros, outcome);
                break;
            case DO:
                command((Do) body);
                break;
            default:
                outcome.malformed(0);
                break;
        }
    }

    /** Adds the frame at hand, as it came, if it was taken. */
    private void addTo(ProgramDigest digest) {
        if (outcome.isDone()) {
            digest.add(header.type, frames.bytes(), bodyFrom, frames.payload().position());
        }
    }

    private void command(Do command) {
        orders.command(command, outcome);
        if (outcome.isDone() && orders.commanded() >= 0) {
            commanding = true;
            commandNumber = lastNumber;
        }
    }
}
