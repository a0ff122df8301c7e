package snagbench.probe;

import snagbench.wire.EntryKind;
import snagbench.wire.Wire;

/** How much a probe holds. All of it is allocated at the start. */
public final class ProbeLimits {
    /** What fits a controller with room to spare. */
    public static final ProbeLimits USUAL = new ProbeLimits(32, 128, 256, 1000, 8, 16, 256, 64);

    final int slots;
    final int terms;
    final int points;
    final int history;
    final int guards;
    final int ring;
    final int frame;
    final int bytesPerTick;

    /**
     * Sets all limits.
     *
     * @param slots entries of a program, from 1 to 32
     * @param terms terms of a program, from 1 on
     * @param points replay points of a program, from 0 (it can do no replay) on
     * @param history ticks of all delays of a program, added up, from 0 (it can do no delay) on
     * @param guards guards of a session, from 0 to 32
     * @param ring events kept until seen, from 8 on
     * @param frame longest frame in bytes, from 64 on
     * @param bytesPerTick most bytes taken from the line in a tick, from 16 on
     * @throws IllegalArgumentException if one is out of range
     */
    public ProbeLimits(
            int slots, int terms, int points, int history, int guards, int ring, int frame, int bytesPerTick) {
        this.slots = require("slots", slots, 1, Wire.MASK_BITS);
        this.terms = require("terms", terms, 1, 4096);
        this.points = require("points", points, 0, 1 << 16);
        this.history = require("history", history, 0, 1 << 16);
        this.guards = require("guards", guards, 0, 32);
        this.ring = require("ring", ring, 8, 1024);
        this.frame = require("frame", frame, Wire.SMALLEST_FRAME, 4096);
        this.bytesPerTick = require("bytesPerTick", bytesPerTick, 16, 4096);
    }

    /** Kinds that a probe of these limits can do: bit n for code n. */
    int kinds() {
        int kinds = 0;
        for (EntryKind kind : EntryKind.values()) {
            boolean possible = (kind != EntryKind.REPLAY || points > 0) && (kind != EntryKind.DELAY || history > 0);
            kinds |= possible ? 1 << kind.code() : 0;
        }
        return kinds;
    }

    private static int require(String what, int value, int least, int most) {
        if (value < least || value > most) {
            throw new IllegalArgumentException(what + " of " + value + ", wanted " + least + " to " + most);
        }
        return value;
    }
}
