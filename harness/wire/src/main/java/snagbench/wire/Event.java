package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** Something that happened on the rig in a tick. Events are numbered and kept on the rig until the bench has seen them. */
public final class Event implements Reply {
    private static final int FIELDS = 7;

    /** Number since the controller's boot, from 1. */
    public final int number;

    /** The tick in which it happened. */
    public final int tick;

    /** The rig's clock at the start of that tick, in microseconds modulo 2^32. */
    public final int micros;

    /** Code of an {@link EventKind}. */
    public final int kind;

    /** First value; the kind says of what. */
    public final int a;

    /** Second value; the kind says of what. */
    public final int b;

    /**
     * All fields in the order in which they travel.
     *
     * @param number see the field
     * @param tick see the field
     * @param micros see the field
     * @param kind see the field
     * @param a see the field
     * @param b see the field
     */
    public Event(int number, int tick, int micros, int kind, int a, int b) {
        this.number = number;
        this.tick = tick;
        this.micros = micros;
        this.kind = kind;
        this.a = a;
        this.b = b;
    }

    static @Nullable Event read(CborReader in, int fields) {
        if (fields != FIELDS - 1) {
            return null;
        }
        return new Event(in.uint32(), in.uint32(), in.uint32(), in.int32(), in.int32(), in.int32());
    }

    @Override
    public void write(CborWriter out) {
        write(out, number, tick, micros, kind, a, b);
    }

    /**
     * Writes an event without making one.
     *
     * @param out takes it
     * @param number see the field
     * @param tick see the field
     * @param micros see the field
     * @param kind see the field
     * @param a see the field
     * @param b see the field
     */
    public static void write(CborWriter out, int number, int tick, int micros, int kind, int a, int b) {
        out.array(FIELDS);
        out.integer(MessageType.EVENT.code());
        out.integer(number & 0xFFFFFFFFL);
        out.integer(tick & 0xFFFFFFFFL);
        out.integer(micros & 0xFFFFFFFFL);
        out.integer(kind);
        out.integer(a);
        out.integer(b);
    }
}
