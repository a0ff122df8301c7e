package snagbench.wire;

/** A limit on real readings, watched on the rig. Guards stay for the session. */
public final class Guard implements RequestBody {
    /** Its place; the next free one. */
    public final int index;

    /** Code of a {@link GuardKind}. */
    public final int kind;

    /** The channel whose real reading it watches. */
    public final int channel;

    /** First limit, in the channel's steps (for a stall: the command's size, in the command's steps). */
    public final int a;

    /** Second limit, in the channel's steps. */
    public final int b;

    /** Over how many ticks a change counts, at least 1 where the kind needs it. */
    public final int windowTicks;

    /** Stall: how long, in microseconds. */
    public final int timeMicros;

    /** Stall: the actuator's channel; -1 otherwise. */
    public final int command;

    /**
     * All fields in the order in which they travel.
     *
     * @param index see the field
     * @param kind see the field
     * @param channel see the field
     * @param a see the field
     * @param b see the field
     * @param windowTicks see the field
     * @param timeMicros see the field
     * @param command see the field
     */
    public Guard(int index, int kind, int channel, int a, int b, int windowTicks, int timeMicros, int command) {
        this.index = index;
        this.kind = kind;
        this.channel = channel;
        this.a = a;
        this.b = b;
        this.windowTicks = windowTicks;
        this.timeMicros = timeMicros;
        this.command = command;
    }

    static Guard read(CborReader in) {
        return new Guard(
                in.int32(), in.int32(), in.int32(), in.int32(), in.int32(), in.int32(), in.uint32(), in.int32());
    }

    @Override
    public MessageType type() {
        return MessageType.GUARD;
    }

    @Override
    public int fields() {
        return 8;
    }

    @Override
    public void write(CborWriter out) {
        out.integer(index);
        out.integer(kind);
        out.integer(channel);
        out.integer(a);
        out.integer(b);
        out.integer(windowTicks);
        out.integer(timeMicros & 0xFFFFFFFFL);
        out.integer(command);
    }
}
