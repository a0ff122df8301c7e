package snagbench.probe;

import org.jspecify.annotations.Nullable;
import snagbench.wire.Entry;
import snagbench.wire.EntryEnd;
import snagbench.wire.EntryKind;
import snagbench.wire.Timing;

/** One entry of the program and where it stands. Times are on the controller's clock, microseconds modulo 2^32. */
final class Slot {
    private static final Entry EMPTY = new Entry(0, EntryKind.WAIT.code(), -1, 0, 0, -1, -1, 0, 0);
    private static final Timing USUAL = new Timing(0, 0, 0, 0, 0, 1, 1);

    Entry entry = EMPTY;
    EntryKind kind = EntryKind.WAIT;
    Timing timing = USUAL;

    /** Decided at the end of a tick, active from the next on. */
    boolean struck;

    /** Decided at the end of a tick, ended from the next on. */
    @Nullable
    EntryEnd decidedEnd;

    /** Why it ended last; null while active and before. */
    @Nullable
    EntryEnd endedWhy;

    /** What it does to its channel. */
    final Forcing forcing;

    int strikes;
    boolean done;

    private int doneTick;
    private int doneMicros;
    private boolean enabled;
    private int enabledMicros;
    private boolean held;
    private int heldSinceMicros;
    private boolean occasionNow;
    private int occasions;
    private boolean delaying;
    private int delayedSinceMicros;

    Slot(Forcing forcing) {
        this.forcing = forcing;
    }

    void load(Entry newEntry, EntryKind newKind) {
        entry = newEntry;
        kind = newKind;
        timing = USUAL;
        forcing.load(newEntry, newKind);
    }

    void arm(int tickMicros, int seed) {
        forcing.arm(seed, entry.index);
        struck = false;
        decidedEnd = null;
        endedWhy = null;
        strikes = 0;
        done = false;
        enabled = false;
        enabledMicros = tickMicros;
        held = false;
        // What must come about anew did not, if it holds from the first tick on.
        occasionNow = isAnew();
        occasions = 0;
        delaying = false;
    }

    boolean isStage() {
        return (entry.flags & Entry.STAGE) != 0;
    }

    /** Its condition is looked at in every tick, also while it is not enabled. */
    boolean isAnew() {
        return (entry.flags & Entry.ANEW) != 0;
    }

    void finish(int tick, int tickMicros) {
        done = true;
        doneTick = tick;
        doneMicros = tickMicros;
    }

    /**
     * Enabled from the tick after the one in which the stage that it hangs on was done, or from that one on. The stage stands
     * before it, so that what became of it in this tick is known. A wait that is done has no further use.
     */
    boolean isEnabled(Slot[] slots, int tick) {
        if (!enabled) {
            if (entry.after < 0) {
                enabled = true;
            } else {
                Slot stage = slots[entry.after];
                boolean sameTick = (entry.flags & Entry.SAME_TICK) != 0;
                if (stage.done && (sameTick || stage.doneTick != tick)) {
                    enabled = true;
                    enabledMicros = stage.doneMicros;
                }
            }
        }
        return enabled && !(done && kind == EntryKind.WAIT);
    }

    /**
     * Takes the truth of the condition at the end of a tick. The condition counts from the tick on in which the entry is
     * enabled: if it holds in that one, that is its first occasion.
     *
     * @return true if the entry strikes with it
     */
    boolean strikesNow(boolean holds, int tickMicros, boolean isActive) {
        boolean rises = rises(holds, tickMicros);
        boolean mayStrike = !isActive && (timing.times == 0 || strikes < timing.times);
        if (rises) {
            occasions++;
            if (mayStrike && !delaying && occasions >= timing.occasion) {
                delaying = true;
                delayedSinceMicros = tickMicros;
            }
        }
        if (delaying && tickMicros - delayedSinceMicros >= timing.delayMicros) {
            delaying = false;
            return true;
        }
        return false;
    }

    /** Takes the truth of the condition at the end of a tick; true if it is an occasion. */
    boolean rises(boolean holds, int tickMicros) {
        if (!holds) {
            held = false;
        } else if (!held) {
            held = true;
            heldSinceMicros = tickMicros;
        }
        boolean occasion = held && (occasionNow || tickMicros - heldSinceMicros >= timing.forMicros);
        boolean rises = occasion && !occasionNow;
        occasionNow = occasion;
        return rises;
    }

    /** A wait has its limit in {@link Entry#lastsMicros}: what comes about later, even in this tick, came too late. */
    boolean isOverdue(int tickMicros) {
        return kind == EntryKind.WAIT && entry.lastsMicros != 0 && tickMicros - enabledMicros > entry.lastsMicros;
    }

    /** What ends an active entry at the start of a tick without its condition; null for nothing. */
    @Nullable
    EntryEnd ownEnd(int tickMicros, @Nullable Slot leader) {
        if ((entry.flags & Entry.ONE_TICK) != 0) {
            return EntryEnd.LASTED;
        }
        if (entry.lastsMicros != 0 && forcing.elapsed(tickMicros) >= entry.lastsMicros) {
            return EntryEnd.LASTED;
        }
        return leader == null ? null : leader.endedWhy;
    }
}
