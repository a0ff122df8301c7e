package snagbench.probe;

import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.Item;
import snagbench.wire.Point;
import snagbench.wire.ProgramDigest;
import snagbench.wire.Refusal;
import snagbench.wire.Term;
import snagbench.wire.TermRole;
import snagbench.wire.Timing;

/** Takes the messages that make a program, each checked alone, so that no injection is half understood. */
final class ProgramLoading {
    private static final int FULL_SCALE = 1 << FaultArithmetic.SCALE_BITS;

    private final Description description;
    private final ProbeLimits limits;
    private final Program program;
    private final int kinds;
    private final ProgramDigest digest = new ProgramDigest();

    ProgramLoading(Description description, ProbeLimits limits, Program program) {
        this.description = description;
        this.limits = limits;
        this.program = program;
        this.kinds = limits.kinds();
    }

    /** Over what was taken since {@link #clear}. */
    ProgramDigest digest() {
        return digest;
    }

    void clear() {
        program.clear();
        digest.clear();
    }

    void entry(Entry entry, Outcome outcome) {
        EntryKind kind = EntryKind.of(entry.kind);
        if (kind == null || !canDo(kind)) {
            outcome.refused(Refusal.UNKNOWN_KIND, entry.kind);
        } else if (!program.hasRoomForEntry()) {
            outcome.refused(Refusal.NO_ROOM, limits.slots);
        } else {
            int field = wrongField(entry, kind);
            if (field >= 0) {
                outcome.malformed(field);
            } else if (kind != EntryKind.WAIT && !mayForce(entry, kind)) {
                outcome.refused(Refusal.NOT_ALLOWED, entry.channel);
            } else if (kind == EntryKind.DELAY && !program.history().hasRoomFor(entry.a)) {
                outcome.refused(Refusal.NO_ROOM, limits.history);
            } else {
                program.add(entry, kind);
                outcome.done();
            }
        }
    }

    private boolean canDo(EntryKind kind) {
        return ((kinds >>> kind.code()) & 1) != 0;
    }

    /** The first field that is wrong; -1 for none. */
    private int wrongField(Entry entry, EntryKind kind) {
        boolean waits = kind == EntryKind.WAIT;
        boolean follows = entry.leader >= 0;
        if (entry.index != program.slotCount()) {
            return 0;
        }
        if (waits ? entry.channel != -1 : !description.has(entry.channel)) {
            return 2;
        }
        if (kind == EntryKind.DELAY && entry.a < 1) {
            return 3;
        }
        if (kind == EntryKind.OFFSET && entry.b != 0 && (entry.a < 0) != (entry.b < 0)) {
            return 4;
        }
        if (entry.leader < -1 || (follows && (waits || !mayLead(entry.leader)))) {
            return 5;
        }
        if (entry.after < -1 || (entry.after >= 0 && !isStage(entry.after))) {
            return 6;
        }
        if (entry.lastsMicros < 0) {
            return 7;
        }
        return hasWrongFlags(entry, waits, follows) ? 8 : -1;
    }

    private static boolean hasWrongFlags(Entry entry, boolean waits, boolean follows) {
        int known = Entry.ONE_TICK | Entry.STAGE | Entry.ANEW | Entry.SAME_TICK;
        boolean stage = (entry.flags & Entry.STAGE) != 0;
        boolean sameTick = (entry.flags & Entry.SAME_TICK) != 0;
        return (entry.flags & ~known) != 0
                || (waits && !stage)
                || (follows && (entry.flags & ~Entry.ONE_TICK) != 0)
                || (sameTick && entry.after < 0);
    }

    private boolean mayLead(int index) {
        if (index >= program.slotCount()) {
            return false;
        }
        Entry entry = program.entry(index);
        return entry.kind != EntryKind.WAIT.code() && entry.leader < 0;
    }

    private boolean isStage(int index) {
        return index < program.slotCount() && (program.entry(index).flags & Entry.STAGE) != 0;
    }

    private boolean mayForce(Entry entry, EntryKind kind) {
        Channel forced = description.channels().get(entry.channel);
        switch (forced.kind()) {
            case STATE:
            case COUNTER:
                return false;
            case ACTUATOR:
                return (forced.flags() & Item.MAY_BE_WEAKENED) != 0 && weakens(entry, kind);
            default:
                return true;
        }
    }

    private static boolean weakens(Entry entry, EntryKind kind) {
        return (kind == EntryKind.STUCK_AT && entry.a == 0)
                || (kind == EntryKind.SCALE && entry.a >= 0 && entry.a <= FULL_SCALE);
    }

    void timing(Timing timing, Outcome outcome) {
        int field = wrongField(timing);
        if (field >= 0) {
            outcome.malformed(field);
        } else {
            program.set(timing);
            outcome.done();
        }
    }

    /** The first field that is wrong; -1 for none. */
    private int wrongField(Timing timing) {
        if (!isLoaded(timing.entry)) {
            return 0;
        }
        boolean follows = program.entry(timing.entry).leader >= 0;
        boolean waits = program.entry(timing.entry).kind == EntryKind.WAIT.code();
        if (timing.forMicros < 0 || (follows && timing.forMicros != 0)) {
            return 1;
        }
        if (timing.delayMicros < 0 || (follows && timing.delayMicros != 0)) {
            return 2;
        }
        if (timing.onMicros < 0 || (waits && timing.onMicros != 0)) {
            return 3;
        }
        if (timing.offMicros < 0 || (timing.onMicros == 0 && timing.offMicros != 0)) {
            return 4;
        }
        if (timing.occasion < 1 || (follows && timing.occasion != 1)) {
            return 5;
        }
        return timing.times < 0 || (follows && timing.times != 1) ? 6 : -1;
    }

    void point(Point point, Outcome outcome) {
        if (!canDo(EntryKind.REPLAY)) {
            outcome.refused(Refusal.UNKNOWN_KIND, EntryKind.REPLAY.code());
        } else if (program.curve().isFull()) {
            outcome.refused(Refusal.NO_ROOM, limits.points);
        } else if (!isLoaded(point.entry) || program.entry(point.entry).kind != EntryKind.REPLAY.code()) {
            outcome.malformed(0);
        } else if (point.ticks <= program.curve().lastTicks(point.entry)) {
            outcome.malformed(1);
        } else {
            program.curve().add(point);
            outcome.done();
        }
    }

    void term(Term term, Outcome outcome) {
        Comparison comparison = Comparison.of(term.comparison);
        TermRole role = TermRole.of(term.role);
        if (comparison == null || role == null) {
            outcome.refused(Refusal.UNKNOWN_KIND, comparison == null ? term.comparison : term.role);
        } else if (!program.hasRoomForTerm()) {
            outcome.refused(Refusal.NO_ROOM, limits.terms);
        } else {
            int field = wrongField(term, comparison);
            if (field >= 0) {
                outcome.malformed(field);
            } else {
                program.add(term, comparison, role);
                outcome.done();
            }
        }
    }

    /** The first field that is wrong; -1 for none. */
    private int wrongField(Term term, Comparison comparison) {
        if (!hasCondition(term.entry)) {
            return 0;
        }
        if (comparison == Comparison.ANSWERED ? term.channel != -1 : !description.has(term.channel)) {
            return 2;
        }
        boolean agrees = comparison == Comparison.AGREES;
        if (term.source != 0 && (term.source != 1 || agrees)) {
            return 3;
        }
        if ((comparison == Comparison.ANSWERED && !Answers.isNumber(term.value)) || (agrees && term.value < 0)) {
            return 5;
        }
        boolean windowed = comparison == Comparison.FASTER_THAN || comparison == Comparison.SLOWER_THAN;
        return windowed && (term.windowTicks < 1 || term.windowTicks > Readings.LONGEST_WINDOW) ? 6 : -1;
    }

    /** A follower has none of its own: what it was given would never be looked at. */
    private boolean hasCondition(int entry) {
        return isLoaded(entry) && program.entry(entry).leader < 0;
    }

    private boolean isLoaded(int entry) {
        return entry >= 0 && entry < program.slotCount();
    }
}
