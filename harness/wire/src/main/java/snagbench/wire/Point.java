package snagbench.wire;

/** One point of the curve that a replay entry follows; the points of an entry come in order of their ticks. */
public final class Point implements RequestBody {
    /** The entry that it belongs to. */
    public final int entry;

    /** Ticks since the entry became active. */
    public final int ticks;

    /** Told value from that tick on, in the channel's steps. */
    public final int value;

    /**
     * All fields in the order in which they travel.
     *
     * @param entry see the field
     * @param ticks see the field
     * @param value see the field
     */
    public Point(int entry, int ticks, int value) {
        this.entry = entry;
        this.ticks = ticks;
        this.value = value;
    }

    static Point read(CborReader in) {
        return new Point(in.int32(), in.int32(), in.int32());
    }

    @Override
    public MessageType type() {
        return MessageType.POINT;
    }

    @Override
    public int fields() {
        return 3;
    }

    @Override
    public void write(CborWriter out) {
        out.integer(entry);
        out.integer(ticks);
        out.integer(value);
    }
}
