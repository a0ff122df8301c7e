package snagbench.wire;

/** Takes or renews the lease, and tells which events were seen. */
public final class Keep implements RequestBody {
    /** How long the lease lives from now on, in milliseconds, from 1 to {@link Wire#LONGEST_LEASE_MILLIS}. */
    public final int leaseMillis;

    /** Number of the newest event up to which all were seen; 0 for none. */
    public final int seenEvents;

    /**
     * All fields in the order in which they travel.
     *
     * @param leaseMillis see the field
     * @param seenEvents see the field
     */
    public Keep(int leaseMillis, int seenEvents) {
        this.leaseMillis = leaseMillis;
        this.seenEvents = seenEvents;
    }

    static Keep read(CborReader in) {
        return new Keep(in.int32(), in.uint32());
    }

    @Override
    public MessageType type() {
        return MessageType.KEEP;
    }

    @Override
    public int fields() {
        return 2;
    }

    @Override
    public void write(CborWriter out) {
        out.integer(leaseMillis);
        out.integer(seenEvents & 0xFFFFFFFFL);
    }
}
