package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** The first item of every message. */
public enum MessageType {
    /** Bench to rig: begin a session. */
    OPEN(1),

    /** Bench to rig: tell one item of the description. */
    ITEM_REQUEST(2),

    /** Bench to rig: what to record, how often. */
    WATCH(3),

    /** Bench to rig: one entry of the program. */
    ENTRY(4),

    /** Bench to rig: the less usual times of an entry. */
    TIMING(5),

    /** Bench to rig: one comparison of an entry's condition. */
    TERM(6),

    /** Bench to rig: one point of a curve to replay. */
    POINT(7),

    /** Bench to rig: one limit on real readings. */
    GUARD(8),

    /** Bench to rig: start the program; tick 0. */
    ARM(9),

    /** Bench to rig: take or renew the lease; events seen. */
    KEEP(10),

    /** Bench to rig: a command outside a program. */
    DO(11),

    /** Bench to rig: safe stop, then drop everything. */
    LET_GO(12),

    /** Rig to bench: greeting, at boot and at open. */
    HELLO(32),

    /** Rig to bench: one item of the description. */
    ITEM(33),

    /** Rig to bench: readings of a tick or a period. */
    RECORD(34),

    /** Rig to bench: something that happened, kept until seen. */
    EVENT(35),

    /** Rig to bench: a request was done. */
    ACK(36),

    /** Rig to bench: a request was refused, and why. */
    NO(37);

    private static final MessageType[] ALL = values();

    private final int code;

    MessageType(int code) {
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
    public static @Nullable MessageType of(int code) {
        for (MessageType one : ALL) {
            if (one.code == code) {
                return one;
            }
        }
        return null;
    }
}
