package snagbench.wire;

/** Which channels to record, and every how many ticks. A list too long for one frame goes in several messages. */
public final class Watch implements RequestBody {
    /** A record is made every so many ticks, from 1. */
    public final int periodTicks;

    /** Place of the first of {@link #channels()} in the whole list; 0 starts the list anew. */
    public final int first;

    private final int[] channels;

    /**
     * All fields in the order in which they travel.
     *
     * @param periodTicks see the field
     * @param first see the field
     * @param channels indexes of channels, in the order of the record
     */
    public Watch(int periodTicks, int first, int... channels) {
        this.periodTicks = periodTicks;
        this.first = first;
        this.channels = channels.clone();
    }

    static Watch read(CborReader in, int fields) {
        int period = in.int32();
        int first = in.int32();
        int[] channels = new int[Math.max(0, fields - 2)];
        for (int i = 0; i < channels.length; i++) {
            channels[i] = in.int32();
        }
        return new Watch(period, first, channels);
    }

    /**
     * The channels listed here.
     *
     * @return a copy
     */
    public int[] channels() {
        return channels.clone();
    }

    @Override
    public MessageType type() {
        return MessageType.WATCH;
    }

    @Override
    public int fields() {
        return 2 + channels.length;
    }

    @Override
    public void write(CborWriter out) {
        out.integer(periodTicks);
        out.integer(first);
        for (int channel : channels) {
            out.integer(channel);
        }
    }
}
