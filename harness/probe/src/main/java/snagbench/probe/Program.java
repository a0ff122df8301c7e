package snagbench.probe;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryEnd;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.Term;
import snagbench.wire.TermRole;
import snagbench.wire.Timing;

/**
 * The program of one fault script: stages of the beginning, then overrides, each with the condition that strikes it.
 * Conditions are looked at at the end of a tick and act from the next tick on; an entry's own time is looked at at the
 * start of a tick.
 */
final class Program {
    private final Slot[] slots;
    private final Term[] terms;
    private final Comparison[] comparisons;
    private final TermRole[] roles;
    /** Bit n: slot n forces the channel. */
    private final int[] slotsOfChannel;

    private final Curve curve;
    private final History history;

    private int slotCount;
    private int termCount;
    private int active;

    /** Slots whose gate is open, or which have none. */
    private int open;

    private int haveWhile;
    private int haveUntil;

    /** Slots of whose terms at least one did not hold at the end of the tick. */
    private int whenFails;

    private int whileFails;
    private int untilFails;
    private boolean armed;
    private boolean ended;

    Program(ProbeLimits limits, int channels) {
        curve = new Curve(limits.points);
        history = new History(limits.history);
        slots = new Slot[limits.slots];
        for (int i = 0; i < slots.length; i++) {
            slots[i] = new Slot(new Forcing(curve.new Place(i), history.new Ring()));
        }
        terms = new Term[limits.terms];
        comparisons = new Comparison[limits.terms];
        roles = new TermRole[limits.terms];
        slotsOfChannel = new int[channels];
    }

    void clear() {
        slotCount = 0;
        termCount = 0;
        curve.clear();
        history.clear();
        active = 0;
        open = 0;
        haveWhile = 0;
        haveUntil = 0;
        armed = false;
        ended = false;
        Arrays.fill(slotsOfChannel, 0);
    }

    int slotCount() {
        return slotCount;
    }

    boolean hasRoomForEntry() {
        return slotCount < slots.length;
    }

    boolean hasRoomForTerm() {
        return termCount < terms.length;
    }

    Curve curve() {
        return curve;
    }

    History history() {
        return history;
    }

    int active() {
        return active;
    }

    boolean isArmed() {
        return armed;
    }

    /** A stage was not done in time: nothing strikes any more, but what is active may still end. */
    boolean hasEnded() {
        return ended;
    }

    Entry entry(int index) {
        return slots[index].entry;
    }

    void add(Entry entry, EntryKind kind) {
        slots[slotCount].load(entry, kind);
        if (entry.channel >= 0) {
            slotsOfChannel[entry.channel] |= 1 << slotCount;
        }
        slotCount++;
    }

    void set(Timing timing) {
        slots[timing.entry].timing = timing;
    }

    void add(Term term, Comparison comparison, TermRole role) {
        if (role == TermRole.WHILE) {
            haveWhile |= 1 << term.entry;
        } else if (role == TermRole.UNTIL) {
            haveUntil |= 1 << term.entry;
        }
        comparisons[termCount] = comparison;
        roles[termCount] = role;
        terms[termCount++] = term;
    }

    /** The tick in which the program is armed is tick 0; its clock is the enabling time of the first stage. */
    void arm(int tickMicros, int seed) {
        for (int i = 0; i < slotCount; i++) {
            slots[i].arm(tickMicros, seed);
        }
        active = 0;
        open = 0;
        armed = true;
        ended = false;
    }

    /** Slots that force the channel, are active and not held back by their gate; 0 for none. */
    int forcing(int channel) {
        return slotsOfChannel[channel] & active & open;
    }

    /** Told value of a channel under the active slots, before the clamp. */
    long force(int forcing, int real, int tickMicros, int absent) {
        long value = real;
        for (int left = forcing; left != 0; left &= left - 1) {
            Slot slot = slots[Integer.numberOfTrailingZeros(left)];
            value = slot.forcing.apply(value, slot.kind, slot.entry, tickMicros, absent);
        }
        return value;
    }

    /** Tells whether a dropout is among the slots. */
    boolean isAbsent(int forcing) {
        for (int left = forcing; left != 0; left &= left - 1) {
            if (slots[Integer.numberOfTrailingZeros(left)].kind == EntryKind.DROPOUT) {
                return true;
            }
        }
        return false;
    }

    /**
     * Starts a tick.
     *
     * @param stopping no entry strikes or ends while the safe stop runs, but what is active goes on
     */
    void beginTick(int tick, int tickMicros, boolean stopping, EventRing events) {
        int begun = stopping ? 0 : carryOut(tick, tickMicros, events);
        open = 0;
        for (int left = active; left != 0; left &= left - 1) {
            int i = Integer.numberOfTrailingZeros(left);
            Slot slot = slots[i];
            if (((begun >>> i) & 1) == 0) {
                slot.forcing.beginTick(slot.kind, slot.timing, tickMicros);
            }
            open |= slot.forcing.isOpen() ? 1 << i : 0;
        }
    }

    /** Carries out what was decided at the end of the tick before, and ends what has lasted; gives what became active. */
    private int carryOut(int tick, int tickMicros, EventRing events) {
        int begun = 0;
        for (int i = 0; i < slotCount; i++) {
            Slot slot = slots[i];
            int bit = 1 << i;
            if ((active & bit) != 0) {
                @Nullable
                EntryEnd end = slot.decidedEnd != null ? slot.decidedEnd : slot.ownEnd(tickMicros, leaderOf(slot));
                if (end != null) {
                    active &= ~bit;
                    slot.decidedEnd = null;
                    slot.endedWhy = end;
                    events.add(tick, tickMicros, EventKind.ENTRY_OFF, i, end.code());
                }
            }
            if (slot.struck) {
                slot.struck = false;
                slot.strikes++;
                slot.forcing.begin(slot.kind, slot.timing, tickMicros);
                slot.endedWhy = null;
                active |= bit;
                begun |= bit;
                events.add(tick, tickMicros, EventKind.ENTRY_ON, i, slot.strikes);
            }
        }
        return begun;
    }

    private @Nullable Slot leaderOf(Slot slot) {
        return slot.entry.leader < 0 ? null : slots[slot.entry.leader];
    }

    /** Ends everything at once, when the safe stop is done. */
    void release(int tick, int tickMicros, EventRing events) {
        for (int i = 0; i < slotCount; i++) {
            if (((active >>> i) & 1) != 0) {
                events.add(tick, tickMicros, EventKind.ENTRY_OFF, i, EntryEnd.RELEASED.code());
            }
        }
        clear();
    }

    /** Keeps what the delays need of a tick, at its end, from tick 0 on and through a safe stop too. */
    void keep(Readings readings) {
        for (int i = 0; i < slotCount; i++) {
            Slot slot = slots[i];
            if (slot.entry.channel >= 0) {
                slot.forcing.keep(slot.kind, readings.real[slot.entry.channel]);
            }
        }
    }

    /** Looks at all conditions at the end of a tick. */
    void endTick(int tick, int tickMicros, Readings readings, Answers answers, EventRing events) {
        lookAtTerms(readings, answers);
        for (int i = 0; i < slotCount; i++) {
            if (((active >>> i) & 1) != 0) {
                slots[i].decidedEnd = decidedEnd(i);
            }
        }
        for (int i = 0; i < slotCount && !ended; i++) {
            decideStart(i, tick, tickMicros, readings, events);
        }
    }

    private void lookAtTerms(Readings readings, Answers answers) {
        whenFails = 0;
        whileFails = 0;
        untilFails = 0;
        for (int i = 0; i < termCount; i++) {
            if (Comparing.holds(terms[i], comparisons[i], readings, answers)) {
                continue;
            }
            int bit = 1 << terms[i].entry;
            switch (roles[i]) {
                case WHEN:
                    whenFails |= bit;
                    break;
                case WHILE:
                    whileFails |= bit;
                    break;
                case UNTIL:
                    untilFails |= bit;
                    break;
            }
        }
    }

    /** What ends an active entry with the next tick; a follower ends with its leader, which stands before it. */
    private @Nullable EntryEnd decidedEnd(int i) {
        Slot slot = slots[i];
        if (slot.entry.leader >= 0) {
            return slots[slot.entry.leader].decidedEnd;
        }
        int bit = 1 << i;
        if ((haveUntil & ~untilFails & bit) != 0) {
            return EntryEnd.UNTIL;
        }
        return (haveWhile & whileFails & bit) != 0 ? EntryEnd.WHILE : null;
    }

    private void decideStart(int i, int tick, int tickMicros, Readings readings, EventRing events) {
        Slot slot = slots[i];
        boolean isActive = ((active >>> i) & 1) != 0;
        if (slot.entry.leader >= 0) {
            if (slots[slot.entry.leader].struck) {
                strike(slot, readings);
            }
            return;
        }
        if (isActive && slot.isStage() && !slot.done) {
            finish(slot, i, tick, tickMicros, events);
        }
        boolean holds = ((whenFails >>> i) & 1) == 0;
        if (!slot.isEnabled(slots, tick)) {
            if (slot.isAnew()) {
                slot.rises(holds, tickMicros);
            }
            return;
        }
        if (slot.isOverdue(tickMicros)) {
            end(i, tick, tickMicros, events);
        } else if (slot.strikesNow(holds, tickMicros, isActive)) {
            if (slot.kind == EntryKind.WAIT) {
                finish(slot, i, tick, tickMicros, events);
            } else {
                strike(slot, readings);
            }
        }
    }

    private static void strike(Slot slot, Readings readings) {
        slot.struck = true;
        slot.forcing.strike(readings.real[slot.entry.channel]);
    }

    private static void finish(Slot slot, int index, int tick, int tickMicros, EventRing events) {
        slot.finish(tick, tickMicros);
        events.add(tick, tickMicros, EventKind.STAGE_DONE, index, 0);
    }

    private void end(int stage, int tick, int tickMicros, EventRing events) {
        ended = true;
        for (int i = 0; i < slotCount; i++) {
            slots[i].struck = false;
        }
        events.add(tick, tickMicros, EventKind.STAGE_TIMED_OUT, stage, 0);
    }
}
