package snagbench.wire;

/** The less usual times of an entry; without this message all are 0 and {@link #occasion} is 1, {@link #times} 1. */
public final class Timing implements RequestBody {
    /** The entry that it belongs to. */
    public final int entry;

    /** How long the condition must have held, in microseconds. */
    public final int forMicros;

    /** How long after the occasion it strikes, in microseconds; once it has come, this latches. */
    public final int delayMicros;

    /** Intermittent: how long on, in microseconds; 0 for not intermittent. */
    public final int onMicros;

    /** Intermittent: how long off, in microseconds; 0 for not intermittent. */
    public final int offMicros;

    /** Which occasion strikes first, from 1. */
    public final int occasion;

    /** How often it strikes at most; 0 for without limit. */
    public final int times;

    /**
     * All fields in the order in which they travel.
     *
     * @param entry see the field
     * @param forMicros see the field
     * @param delayMicros see the field
     * @param onMicros see the field
     * @param offMicros see the field
     * @param occasion see the field
     * @param times see the field
     */
    public Timing(int entry, int forMicros, int delayMicros, int onMicros, int offMicros, int occasion, int times) {
        this.entry = entry;
        this.forMicros = forMicros;
        this.delayMicros = delayMicros;
        this.onMicros = onMicros;
        this.offMicros = offMicros;
        this.occasion = occasion;
        this.times = times;
    }

    static Timing read(CborReader in) {
        return new Timing(in.int32(), in.uint32(), in.uint32(), in.uint32(), in.uint32(), in.int32(), in.int32());
    }

    @Override
    public MessageType type() {
        return MessageType.TIMING;
    }

    @Override
    public int fields() {
        return 7;
    }

    @Override
    public void write(CborWriter out) {
        out.integer(entry);
        out.integer(forMicros & 0xFFFFFFFFL);
        out.integer(delayMicros & 0xFFFFFFFFL);
        out.integer(onMicros & 0xFFFFFFFFL);
        out.integer(offMicros & 0xFFFFFFFFL);
        out.integer(occasion);
        out.integer(times);
    }
}
