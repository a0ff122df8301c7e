package snagbench.wire;

/** One comparison of an entry's condition. All terms of one entry and role must hold together. */
public final class Term implements RequestBody {
    /** The entry that it belongs to. */
    public final int entry;

    /** Code of a {@link TermRole}. */
    public final int role;

    /** The channel; -1 where the comparison has none. */
    public final int channel;

    /** 0 for the real reading, 1 for the told one; 0 for {@link Comparison#AGREES}, which looks at both. */
    public final int source;

    /** Code of a {@link Comparison}. */
    public final int comparison;

    /** In the channel's steps. */
    public final int value;

    /** Over how many ticks a change counts; 0 where it does not matter. */
    public final int windowTicks;

    /**
     * All fields in the order in which they travel.
     *
     * @param entry see the field
     * @param role see the field
     * @param channel see the field
     * @param source see the field
     * @param comparison see the field
     * @param value see the field
     * @param windowTicks see the field
     */
    public Term(int entry, int role, int channel, int source, int comparison, int value, int windowTicks) {
        this.entry = entry;
        this.role = role;
        this.channel = channel;
        this.source = source;
        this.comparison = comparison;
        this.value = value;
        this.windowTicks = windowTicks;
    }

    static Term read(CborReader in) {
        return new Term(in.int32(), in.int32(), in.int32(), in.int32(), in.int32(), in.int32(), in.int32());
    }

    @Override
    public MessageType type() {
        return MessageType.TERM;
    }

    @Override
    public int fields() {
        return 7;
    }

    @Override
    public void write(CborWriter out) {
        out.integer(entry);
        out.integer(role);
        out.integer(channel);
        out.integer(source);
        out.integer(comparison);
        out.integer(value);
        out.integer(windowTicks);
    }
}
