package snagbench.probe;

import snagbench.wire.Entry;
import snagbench.wire.EntryKind;

/**
 * What an override does to a reading, exactly: 32-bit integers in, 64 bits between. A fixed-point rate is in steps per
 * microsecond times 2^32; it is multiplied with the elapsed time and never accumulated, so that uneven ticks make no
 * error. The authority is the chapter on arithmetic in {@code firmware-notes/wire-format.md}.
 */
final class FaultArithmetic {
    /** Bits behind the point of a rate. */
    static final int RATE_BITS = 32;

    /** Bits behind the point of a scale. */
    static final int SCALE_BITS = 16;

    private FaultArithmetic() {}

    /** Kinds that this probe can do, as the greeting tells them. */
    static int kinds() {
        int kinds = 0;
        for (EntryKind kind : EntryKind.values()) {
            if (isKnown(kind)) {
                kinds |= 1 << kind.code();
            }
        }
        return kinds;
    }

    private static boolean isKnown(EntryKind kind) {
        switch (kind) {
            case WAIT:
            case STUCK_AT:
            case FREEZE:
            case OFFSET:
            case SCALE:
            case DRIFT:
            case SPIKE:
            case DROPOUT:
                return true;
            default:
                return false;
        }
    }

    /**
     * The value after an entry.
     *
     * @param value before it, in steps
     * @param kind of the entry
     * @param entry the entry
     * @param frozen real value in the tick whose end struck
     * @param elapsedMicros since the entry became active, 0 or more
     * @param absent the channel's value when absent
     */
    static long apply(long value, EntryKind kind, Entry entry, int frozen, int elapsedMicros, int absent) {
        switch (kind) {
            case STUCK_AT:
                return entry.a;
            case FREEZE:
                return frozen;
            case OFFSET:
                return value + offset(entry, elapsedMicros);
            case SCALE:
                return scaled(value, entry.a);
            case DRIFT:
                return value + (((long) entry.a * elapsedMicros) >> RATE_BITS);
            case SPIKE:
                return value + entry.a;
            case DROPOUT:
                return absent;
            default:
                return value;
        }
    }

    /** The value is held to 32 bits first: a scale of a scale of a scale would leave 64. */
    private static long scaled(long value, int factor) {
        long held = Math.max(Integer.MIN_VALUE, Math.min(Integer.MAX_VALUE, value));
        return (held * factor + (1L << (SCALE_BITS - 1))) >> SCALE_BITS;
    }

    private static long offset(Entry entry, int elapsedMicros) {
        if (entry.b == 0) {
            return entry.a;
        }
        long ramped = ((long) entry.b * elapsedMicros) >> RATE_BITS;
        return entry.a >= 0 ? Math.min(ramped, entry.a) : Math.max(ramped, entry.a);
    }
}
