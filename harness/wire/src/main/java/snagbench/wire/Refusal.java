package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** Why a request was refused. */
public enum Refusal {
    /** Another session's lease lives; the word says for how many more milliseconds. */
    BUSY(1),

    /** This version has no such request. */
    UNKNOWN_REQUEST(2),

    /** The request belongs to another session. */
    OTHER_SESSION(3),

    /** The controller restarted since; the request is from before. */
    OTHER_BOOT(4),

    /** Fields are missing, too many or out of range; the word says which, counted from 0 behind the header. */
    MALFORMED(5),

    /** This version, or this build, cannot do that; the word says which code. */
    UNKNOWN_KIND(6),

    /** What was loaded is not what was to be armed; the word is the rig's own digest. */
    MISMATCH(7),

    /** A stop is latched; the word is its {@link StopReason}. */
    LATCHED(8),

    /** It needs a lease. */
    NO_LEASE(9),

    /** No more slots, terms, points, guards or watched channels; the word says how many there are. */
    NO_ROOM(10),

    /** Not while a program is armed, or while the rig stops. */
    NOT_NOW(11),

    /** A lasting fault on a channel that closes a control loop needs a guard; the word is the channel. */
    NEEDS_GUARD(12),

    /** The rig's physical enable is off. */
    NOT_ENABLED(13),

    /** The channel may not be forced so; the word is the channel. */
    NOT_ALLOWED(14);

    private static final Refusal[] ALL = values();

    private final int code;

    Refusal(int code) {
        this.code = code;
    }

    /**
     * The number on the line.
     *
     * @return the code
     */
    public int code() {
        return code;
    }

    /**
     * Finds by the number on the line.
     *
     * @param code from the line
     * @return the constant, or null where this version knows none
     */
    public static @Nullable Refusal of(int code) {
        for (Refusal one : ALL) {
            if (one.code == code) {
                return one;
            }
        }
        return null;
    }
}
