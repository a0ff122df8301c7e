package snagbench.wire;

/** One entry of the program: what it forces, what it hangs on, when it ends. Entries come in order, from 0. */
public final class Entry implements RequestBody {
    /** Its place in the program; the next free one. */
    public final int index;

    /** Code of an {@link EntryKind}. */
    public final int kind;

    /** The channel that it forces; -1 for a wait. */
    public final int channel;

    /** First figure of its kind, in the channel's steps. */
    public final int a;

    /** Second figure of its kind. */
    public final int b;

    /** An earlier entry with which it is active, with no condition of its own; -1 for none. */
    public final int leader;

    /** The stage that must be done before its condition counts; -1 for none. */
    public final int after;

    /** Its own time in microseconds, for a stage the limit; 0 for none. */
    public final int lastsMicros;

    /** {@link #ONE_TICK}, {@link #STAGE}, {@link #ANEW} and {@link #SAME_TICK}, added. */
    public final int flags;

    /**
     * All fields in the order in which they travel.
     *
     * @param index see the field
     * @param kind see the field
     * @param channel see the field
     * @param a see the field
     * @param b see the field
     * @param leader see the field
     * @param after see the field
     * @param lastsMicros see the field
     * @param flags see the field
     */
    public Entry(int index, int kind, int channel, int a, int b, int leader, int after, int lastsMicros, int flags) {
        this.index = index;
        this.kind = kind;
        this.channel = channel;
        this.a = a;
        this.b = b;
        this.leader = leader;
        this.after = after;
        this.lastsMicros = lastsMicros;
        this.flags = flags;
    }

    static Entry read(CborReader in) {
        return new Entry(
                in.int32(),
                in.int32(),
                in.int32(),
                in.int32(),
                in.int32(),
                in.int32(),
                in.int32(),
                in.uint32(),
                in.int32());
    }

    @Override
    public MessageType type() {
        return MessageType.ENTRY;
    }

    @Override
    public int fields() {
        return 9;
    }

    @Override
    public void write(CborWriter out) {
        out.integer(index);
        out.integer(kind);
        out.integer(channel);
        out.integer(a);
        out.integer(b);
        out.integer(leader);
        out.integer(after);
        out.integer(lastsMicros & 0xFFFFFFFFL);
        out.integer(flags);
    }

    /** Flag: it ends after one tick. */
    public static final int ONE_TICK = 1;

    /** Flag: it is a stage; entries hang on it by {@link #after}. */
    public static final int STAGE = 2;

    /** Flag: its condition must come about anew; that it held already is no occasion. */
    public static final int ANEW = 4;

    /** Flag: it is looked at in the very tick in which the stage was done on which it hangs. */
    public static final int SAME_TICK = 8;
}
