package snagbench.probe;

import snagbench.wire.ChannelKind;
import snagbench.wire.EventKind;
import snagbench.wire.StopReason;

/**
 * The probe: the control code passes every reading, drive and state through it, between {@link #beginTick} and {@link
 * #endTick} of each pass of its loop.
 *
 * <pre>{@code
 * while (true) {
 *     probe.beginTick();
 *     int position = probe.read(POSITION, encoder.tenthsOfMillimetre());
 *     ...
 *     probe.report(STEP, step.ordinal());
 *     motor.set(probe.drive(COMMAND, wanted));
 *     probe.endTick();
 * }
 * }</pre>
 *
 * <p>With no bench on the line, what is read is what is told. While a program is armed the probe allocates nothing,
 * takes a bounded number of bytes a tick and never waits. A tick is from one {@link #beginTick} to the next.
 *
 * <p>This class is not thread-safe: it belongs to the control loop.
 */
public final class Probe {
    private final Description description;
    private final ProbeClock clock;
    private final ProbeLine line;
    private final ProbeState state;
    private final Readings readings;
    private final Program program;
    private final Stopping stopping;
    private final EventRing events;
    private final Orders orders;
    private final Session session;
    private final Sender sender;
    private final int bytesPerTick;

    private int tick = -1;
    private int tickMicros;
    private boolean inTick;

    /**
     * A probe that has just started, with everything off.
     *
     * @param description what the rig tells of itself
     * @param controller what the greeting tells
     * @param limits how much it holds
     * @param line to the bench
     * @param clock the controller's
     * @param stop the machine's safe stop
     * @param arming what the rig says to, and does at, the start of a program
     * @throws IllegalArgumentException if the greeting or the description does not fit the frames
     */
    public Probe(
            Description description,
            Controller controller,
            ProbeLimits limits,
            ProbeLine line,
            ProbeClock clock,
            SafeStop stop,
            Arming arming) {
        this.description = description;
        this.clock = clock;
        this.line = line;
        this.bytesPerTick = limits.bytesPerTick;
        state = new ProbeState(description, limits, stop);
        readings = state.readings;
        program = state.program;
        stopping = state.stopping;
        events = state.events;
        ProgramLoading programLoading = new ProgramLoading(description, limits, program);
        GuardLoading guardLoading = new GuardLoading(description, limits, state.guards);
        orders = new Orders(description, controller, arming, state, programLoading, guardLoading);
        sender = new Sender(limits, description.channels().size(), state.recording, events);
        session = new Session(description, controller, limits, state, programLoading, guardLoading, orders, sender);
        session.greet();
    }

    /** Starts a tick: reads the clock once, takes what came on the line, lets the program's decisions take effect. */
    public void beginTick() {
        if (inTick) {
            throw new IllegalStateException("beginTick() twice without endTick() between");
        }
        inTick = true;
        int now = clock.micros();
        if (tick >= 0) {
            state.recording.loopTook(now - tickMicros);
        }
        tickMicros = now;
        tick++;
        readings.beginTick();
        session.beginTick(tick, tickMicros);
        if (stopping.isDone()) {
            program.release(tick, tickMicros, events);
            session.released();
        }
        stopping.beginTick();
        for (int taken = 0; taken < bytesPerTick; taken++) {
            int next = line.read();
            if (next < 0) {
                break;
            }
            session.accept((byte) next);
        }
        if (program.isArmed()) {
            program.beginTick(tick, tickMicros, stopping.isRunning(), events);
        }
    }

    /**
     * Passes a reading: of a sensor, a command, a disturbance, an inhibition or a constant. The first call for a channel
     * in a tick decides; later ones in the same tick give the same again. Read every command in every tick: the bench
     * tells one for a single tick, and one that was not read is gone.
     *
     * @param channel the channel
     * @param real the reading as it came in, in the channel's steps
     * @return the reading as the control code is to take it
     */
    public int read(Channel channel, int real) {
        int index = channel.index();
        if (readings.readNow[index]) {
            return readings.told[index];
        }
        int forcing = program.forcing(index);
        if (forcing != 0 && mayForce(channel.kind())) {
            int told = forced(channel, forcing, real);
            readings.setForced(index, real, told, program.isAbsent(forcing));
            return told;
        }
        if (orders.commanded() == index) {
            readings.setForced(index, real, orders.commandedValue(), false);
            return orders.commandedValue();
        }
        readings.set(index, real);
        return real;
    }

    /** Actuators go by {@link #drive}; and while the rig stops, no command may set it going. */
    private boolean mayForce(ChannelKind kind) {
        return kind != ChannelKind.ACTUATOR && (kind != ChannelKind.COMMAND || !stopping.isRunning());
    }

    /**
     * Passes what the control code wants of an actuator. An override can only weaken it; in a safe stop none acts.
     *
     * @param actuator the channel
     * @param wanted in the channel's steps
     * @return what the actuator may be given: between 0 and what was wanted
     */
    public int drive(Channel actuator, int wanted) {
        int index = actuator.index();
        if (readings.readNow[index]) {
            return readings.told[index];
        }
        int forcing = mayMove() ? program.forcing(index) : 0;
        if (forcing == 0) {
            readings.set(index, wanted);
            return wanted;
        }
        int weakened = forced(actuator, forcing, wanted);
        int told = wanted >= 0 ? clamp(weakened, 0, wanted) : clamp(weakened, wanted, 0);
        readings.setForced(index, wanted, told, false);
        return told;
    }

    private int forced(Channel channel, int forcing, int real) {
        return clamp(program.force(forcing, real, tickMicros, channel.absent()), channel.lowest(), channel.highest());
    }

    private static int clamp(long value, int least, int most) {
        return (int) Math.max(least, Math.min(most, value));
    }

    /**
     * Reports a state or a counter of the control code. A change of a state becomes a numbered event.
     *
     * @param channel the channel
     * @param value in the channel's steps
     */
    public void report(Channel channel, int value) {
        int index = channel.index();
        boolean changed = readings.told[index] != value;
        readings.set(index, value);
        if (changed && channel.kind() == ChannelKind.STATE) {
            events.add(tick, tickMicros, EventKind.STATE, index, value);
        }
    }

    /**
     * The fail-safe report: a fail-safe answers in this tick.
     *
     * @param failSafe which one
     */
    public void answered(FailSafe failSafe) {
        state.answers.add(failSafe.number());
        events.add(tick, tickMicros, EventKind.ANSWERED, failSafe.number(), state.answers.countOf(failSafe.number()));
        readings.set(description.lastAnswer().index(), failSafe.number());
    }

    /** Ends a tick: guards, lease, the program's conditions, the safe stop's progress, and what the bench is told. */
    public void endTick() {
        if (!inTick) {
            throw new IllegalStateException("endTick() without beginTick()");
        }
        inTick = false;
        readings.set(
                description.lastAnswer().index(),
                readings.real[description.lastAnswer().index()]);
        readings.set(description.answerCount().index(), state.answers.count());
        int active = program.active();
        if (program.isArmed()) {
            program.keep(readings);
        }
        stopIfNeeded();
        if (program.isArmed() && !stopping.isRunning()) {
            program.endTick(tick, tickMicros, readings, state.answers, events);
        }
        session.endTick();
        orders.endTick();
        StopReason finished = stopping.finished();
        if (finished != null) {
            events.add(tick, tickMicros, EventKind.STOP, finished.code(), 1);
        }
        state.answers.endTick();
        sender.endTick(tick, tickMicros, active, state.flags(), line);
        readings.endTick();
    }

    /** In their order of power. */
    private void stopIfNeeded() {
        if (stopping.latchedFor() != StopReason.GUARD) {
            int guard = state.guards.tripped(readings, tickMicros, stopping.isRunning());
            if (guard >= 0) {
                events.add(tick, tickMicros, EventKind.GUARD, guard, readings.real[state.guards.channelOf(guard)]);
                begin(StopReason.GUARD);
            }
        }
        if (state.lease.hasRunOut(tickMicros)) {
            state.lease.end();
            events.add(tick, tickMicros, EventKind.LEASE, 0, 0);
            // A bench that waits for the end of a stop cannot renew: that stop goes on under its own reason.
            if (!stopping.isRunning()) {
                begin(StopReason.LEASE);
            }
        }
        if (session.wantsToLetGo()) {
            begin(StopReason.LET_GO);
        }
    }

    private void begin(StopReason reason) {
        if (stopping.begin(reason)) {
            events.add(tick, tickMicros, EventKind.STOP, reason.code(), 0);
        }
    }

    /**
     * The clock as it was read at the start of this tick.
     *
     * @return microseconds modulo 2^32
     */
    public int tickMicros() {
        return tickMicros;
    }

    /**
     * The probe's word on motion, for control code that wants it, such as after a restart.
     *
     * @return false while the safe stop runs or is latched; after a restart the probe knows nothing and says true
     */
    public boolean mayMove() {
        return !stopping.isRunning() && !stopping.isLatched();
    }
}
