package snagbench.probe;

import snagbench.wire.Guard;
import snagbench.wire.GuardKind;
import snagbench.wire.ProgramDigest;
import snagbench.wire.Refusal;

/** Takes the guards of a session, each checked alone. */
final class GuardLoading {
    private final Description description;
    private final ProbeLimits limits;
    private final Guards guards;
    private final ProgramDigest digest = new ProgramDigest();

    GuardLoading(Description description, ProbeLimits limits, Guards guards) {
        this.description = description;
        this.limits = limits;
        this.guards = guards;
    }

    /** Over what was taken since {@link #clear}. */
    ProgramDigest digest() {
        return digest;
    }

    void clear() {
        guards.clear();
        digest.clear();
    }

    void guard(Guard guard, Outcome outcome) {
        GuardKind kind = GuardKind.of(guard.kind);
        if (kind == null) {
            outcome.refused(Refusal.UNKNOWN_KIND, guard.kind);
        } else if (guards.isFull()) {
            outcome.refused(Refusal.NO_ROOM, limits.guards);
        } else {
            int field = wrongField(guard, kind);
            if (field >= 0) {
                outcome.malformed(field);
            } else {
                guards.add(guard, kind);
                outcome.done();
            }
        }
    }

    /** The first field that is wrong; -1 for none. */
    private int wrongField(Guard guard, GuardKind kind) {
        boolean travel = kind == GuardKind.TRAVEL;
        boolean stall = kind == GuardKind.STALL;
        if (guard.index != guards.count()) {
            return 0;
        }
        if (!description.has(guard.channel)) {
            return 2;
        }
        // A limit that no reading can keep would stop the machine at once, and no one would know why.
        if (!travel && guard.a < 0) {
            return 3;
        }
        if ((travel && guard.a > guard.b) || (stall && guard.b < 0)) {
            return 4;
        }
        if (!travel && (guard.windowTicks < 1 || guard.windowTicks > Readings.LONGEST_WINDOW)) {
            return 5;
        }
        if (guard.timeMicros < 0) {
            return 6;
        }
        return stall && !description.has(guard.command) ? 7 : -1;
    }
}
