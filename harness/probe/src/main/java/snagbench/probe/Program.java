package snagbench.probe;

import java.util.Arrays;
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

    private int slotCount;
    private int termCount;
    private int active;
    private int haveWhile;
    private int haveUntil;
    private boolean ended;

    Program(ProbeLimits limits, int channels) {
        slots = new Slot[limits.slots];
        for (int i = 0; i < slots.length; i++) {
            slots[i] = new Slot();
        }
        terms = new Term[limits.terms];
        comparisons = new Comparison[limits.terms];
        roles = new TermRole[limits.terms];
        slotsOfChannel = new int[channels];
    }

    void clear() {
        slotCount = 0;
        termCount = 0;
        active = 0;
        haveWhile = 0;
        haveUntil = 0;
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

    int active() {
        return active;
    }

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
    void arm(int tickMicros) {
        for (int i = 0; i < slotCount; i++) {
            slots[i].arm(tickMicros);
        }
        active = 0;
        ended = false;
    }

    /** Slots that force the channel and are active; 0 for none. */
    int forcing(int channel) {
        return slotsOfChannel[channel] & active;
    }

    /** Told value of a channel under the active slots, before the clamp. */
    long force(int forcing, int real, int tickMicros, int absent) {
        long value = real;
        for (int left = forcing; left != 0; left &= left - 1) {
            Slot slot = slots[Integer.numberOfTrailingZeros(left)];
            value = FaultArithmetic.apply(
                    value, slot.kind, slot.entry, slot.frozen, slot.elapsed(tickMicros), absent);
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

    /** Carries out what was decided at the end of the tick before, and ends what has lasted. */
    void beginTick(int tick, int tickMicros, EventRing events) {
        for (int i = 0; i < slotCount; i++) {
            Slot slot = slots[i];
            int bit = 1 << i;
            if ((active & bit) != 0) {
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
                slot.onMicros = tickMicros;
                slot.endedWhy = null;
                active |= bit;
                events.add(tick, tickMicros, EventKind.ENTRY_ON, i, slot.strikes);
            }
        }
    }

    private Slot leaderOf(Slot slot) {
        return slot.entry.leader < 0 ? null : slots[slot.entry.leader];
    }

    /** Ends everything at once, when the safe stop is done. */
    void release(int tick, int tickMicros, EventRing events) {
        for (int i = 0; i < slotCount; i++) {
            if ((active >>> i & 1) != 0) {
                events.add(tick, tickMicros, EventKind.ENTRY_OFF, i, EntryEnd.RELEASED.code());
            }
        }
        clear();
    }

    /** Looks at all conditions at the end of a tick. */
    void endTick(int tick, int tickMicros, Readings readings, Answers answers, EventRing events) {
        if (ended) {
            return;
        }
        int whenFails = 0;
        int whileFails = 0;
        int untilFails = 0;
        for (int i = 0; i < termCount; i++) {
            Term term = terms[i];
            if (!holds(term, comparisons[i], readings, answers)) {
                int bit = 1 << term.entry;
                switch (roles[i]) {
                    case WHEN:
                        whenFails |= bit;
                        break;
                    case WHILE:
                        whileFails |= bit;
                        break;
                    default:
                        untilFails |= bit;
                        break;
                }
            }
        }
        for (int i = 0; i < slotCount && !ended; i++) {
            Slot slot = slots[i];
            int bit = 1 << i;
            boolean isActive = (active & bit) != 0;
            if (slot.entry.leader >= 0) {
                follow(slot, isActive, slots[slot.entry.leader], readings);
                continue;
            }
            if (isActive && (haveUntil & bit) != 0 && (untilFails & bit) == 0) {
                slot.decidedEnd = EntryEnd.UNTIL;
            } else if (isActive && (haveWhile & bit) != 0 && (whileFails & bit) != 0) {
                slot.decidedEnd = EntryEnd.WHILE;
            }
            if (isActive && slot.isStage()) {
                stageDone(slot, i, tick, tickMicros, events);
            }
            if (!slot.isEnabled(slots, tick, tickMicros)) {
                continue;
            }
            boolean holds = (whenFails & bit) == 0;
            if (slot.strikesNow(holds, tickMicros, isActive)) {
                strike(slot, i, tick, tickMicros, readings, events);
            } else if (slot.isOverdue(tickMicros)) {
                ended = true;
                events.add(tick, tickMicros, EventKind.STAGE_TIMED_OUT, i, 0);
            }
        }
    }

    private void strike(Slot slot, int index, int tick, int tickMicros, Readings readings, EventRing events) {
        if (slot.kind == EntryKind.WAIT) {
            slot.strikes++;
            stageDone(slot, index, tick, tickMicros, events);
            return;
        }
        slot.struck = true;
        slot.frozen = readings.real[slot.entry.channel];
    }

    private static void stageDone(Slot slot, int index, int tick, int tickMicros, EventRing events) {
        if (!slot.done) {
            slot.done = true;
            slot.doneTick = tick;
            slot.doneMicros = tickMicros;
            events.add(tick, tickMicros, EventKind.STAGE_DONE, index, 0);
        }
    }

    /** A follower strikes and ends with its leader; its leader stands before it, so that is decided by now. */
    private static void follow(Slot slot, boolean isActive, Slot leader, Readings readings) {
        if (leader.struck) {
            slot.struck = true;
            slot.frozen = readings.real[slot.entry.channel];
        }
        if (isActive) {
            slot.decidedEnd = leader.decidedEnd;
        }
    }

    private static boolean holds(Term term, Comparison comparison, Readings readings, Answers answers) {
        boolean ofTold = term.source != 0;
        switch (comparison) {
            case ANSWERED:
                return answers.hasAnswered(term.value);
            case FASTER_THAN:
                return readings.reachesBack(term.windowTicks)
                        && Math.abs(readings.change(term.channel, ofTold, term.windowTicks)) > term.value;
            case SLOWER_THAN:
                return readings.reachesBack(term.windowTicks)
                        && Math.abs(readings.change(term.channel, ofTold, term.windowTicks)) < term.value;
            default:
                return compares(
                        comparison,
                        (ofTold ? readings.told : readings.real)[term.channel],
                        (ofTold ? readings.previousTold : readings.previousReal)[term.channel],
                        term.value);
        }
    }

    private static boolean compares(Comparison comparison, int now, int before, int value) {
        switch (comparison) {
            case AT_LEAST:
                return now >= value;
            case ABOVE:
                return now > value;
            case AT_MOST:
                return now <= value;
            case BELOW:
                return now < value;
            case IS:
                return now == value;
            case IS_NOT:
                return now != value;
            case RISES_TO:
                return now >= value && before < value;
            case FALLS_TO:
                return now <= value && before > value;
            default:
                return false;
        }
    }
}
