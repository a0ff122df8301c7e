package snagbench.wire;

/** A command outside a program; only under a lease and while no program is armed. */
public final class Do implements RequestBody {
    /** {@link #COMMAND} or {@link #RELEASE_LATCH}. */
    public final int what;

    /** The command channel; -1 where there is none. */
    public final int channel;

    /** What the control code is told for one tick. */
    public final int value;

    /**
     * All fields in the order in which they travel.
     *
     * @param what see the field
     * @param channel see the field
     * @param value see the field
     */
    public Do(int what, int channel, int value) {
        this.what = what;
        this.channel = channel;
        this.value = value;
    }

    static Do read(CborReader in) {
        return new Do(in.int32(), in.int32(), in.int32());
    }

    @Override
    public MessageType type() {
        return MessageType.DO;
    }

    @Override
    public int fields() {
        return 3;
    }

    @Override
    public void write(CborWriter out) {
        out.integer(what);
        out.integer(channel);
        out.integer(value);
    }

    /** Tells a command channel a value for one tick. */
    public static final int COMMAND = 0;

    /** Releases the latch of a stop, so that the rig may be brought to ready again. */
    public static final int RELEASE_LATCH = 1;
}
