package snagbench.probe;

import snagbench.wire.Arm;
import snagbench.wire.ChannelKind;
import snagbench.wire.Do;
import snagbench.wire.Entry;
import snagbench.wire.EventKind;
import snagbench.wire.Item;
import snagbench.wire.Refusal;

/** What may set the machine going: arming, and commands outside a program. Both want a lease and the physical enable. */
final class Orders {
    private final Description description;
    private final Controller controller;
    private final Arming arming;
    private final ProbeState state;
    private final ProgramLoading programLoading;
    private final GuardLoading guardLoading;

    private int commanded = -1;
    private int commandedValue;

    Orders(
            Description description,
            Controller controller,
            Arming arming,
            ProbeState state,
            ProgramLoading programLoading,
            GuardLoading guardLoading) {
        this.description = description;
        this.controller = controller;
        this.arming = arming;
        this.state = state;
        this.programLoading = programLoading;
        this.guardLoading = guardLoading;
    }

    /** Channel that a command outside a program tells in this tick; -1 for none. */
    int commanded() {
        return commanded;
    }

    int commandedValue() {
        return commandedValue;
    }

    /** A command is told in the tick in which it came, or never: one that waits would move the machine late. */
    void endTick() {
        commanded = -1;
    }

    void arm(Arm arm, int tick, int tickMicros, Outcome outcome) {
        if (isHeldBack(outcome)) {
            return;
        }
        int programDigest = programLoading.digest().value();
        int guardDigest = guardLoading.digest().value();
        int unguarded = controller.real ? unguardedChannel() : -1;
        if (arm.entries != state.program.slotCount() || arm.digest != programDigest) {
            outcome.refused(Refusal.MISMATCH, programDigest);
        } else if (arm.guards != state.guards.count() || arm.guardDigest != guardDigest) {
            outcome.refused(Refusal.MISMATCH, guardDigest);
        } else if (unguarded >= 0) {
            outcome.refused(Refusal.NEEDS_GUARD, unguarded);
        } else if (!arming.isEnabled()) {
            outcome.refused(Refusal.NOT_ENABLED, 0);
        } else {
            start(arm, tick, tickMicros, outcome);
        }
    }

    private void start(Arm arm, int tick, int tickMicros, Outcome outcome) {
        commanded = -1;
        state.program.arm(tickMicros, arm.seed);
        state.answers.arm();
        state.guards.arm();
        state.readings.arm(!controller.real);
        state.readings.set(description.lastAnswer().index(), 0);
        state.recording.restartPeriod();
        state.events.arm();
        outcome.done(state.events.newest());
        state.events.add(tick, tickMicros, EventKind.ARMED, arm.entries, arm.seed);
        arming.armed(arm.seed);
    }

    /** A channel that closes a control loop, is under a lasting fault and has no guard; -1 for none. */
    private int unguardedChannel() {
        for (int i = 0; i < state.program.slotCount(); i++) {
            Entry entry = state.program.entry(i);
            boolean lasts = (entry.flags & Entry.ONE_TICK) == 0;
            if (entry.channel >= 0
                    && lasts
                    && (description.channels().get(entry.channel).flags() & Item.CLOSES_LOOP) != 0
                    && !state.guards.watches(entry.channel)) {
                return entry.channel;
            }
        }
        return -1;
    }

    void command(Do command, Outcome outcome) {
        if (command.what == Do.RELEASE_LATCH) {
            releaseLatch(outcome);
        } else if (command.what != Do.COMMAND) {
            outcome.refused(Refusal.UNKNOWN_KIND, command.what);
        } else if (!isHeldBack(outcome)) {
            tell(command, outcome);
        }
    }

    private void releaseLatch(Outcome outcome) {
        if (!state.lease.lives()) {
            outcome.refused(Refusal.NO_LEASE, 0);
            return;
        }
        if (state.stopping.isLatched()) {
            state.stopping.releaseLatch();
            state.guards.allowWayBack(state.readings);
        }
        outcome.done();
    }

    private void tell(Do command, Outcome outcome) {
        if (!description.has(command.channel)) {
            outcome.malformed(1);
            return;
        }
        Channel channel = description.channels().get(command.channel);
        if (channel.kind() != ChannelKind.COMMAND) {
            outcome.malformed(1);
        } else if (command.value < channel.lowest() || command.value > channel.highest()) {
            outcome.malformed(2);
        } else if (!arming.isEnabled()) {
            outcome.refused(Refusal.NOT_ENABLED, 0);
        } else {
            commanded = command.channel;
            commandedValue = command.value;
            outcome.done();
        }
    }

    private boolean isHeldBack(Outcome outcome) {
        if (state.stopping.isLatched()) {
            outcome.refused(Refusal.LATCHED, state.stopping.latchedFor().code());
            return true;
        }
        if (!state.lease.lives()) {
            outcome.refused(Refusal.NO_LEASE, 0);
            return true;
        }
        return false;
    }
}
