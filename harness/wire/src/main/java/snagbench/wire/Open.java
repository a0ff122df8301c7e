package snagbench.wire;

/** Begins a session: the header's session is the bench's nonce, its boot is 0. Answered by {@link Hello}, or refused as busy. */
public final class Open implements RequestBody {
    /** Lowest wire version that the bench speaks. */
    public final int lowestVersion;

    /** Highest wire version that the bench speaks. */
    public final int highestVersion;

    /**
     * All fields in the order in which they travel.
     *
     * @param lowestVersion see the field
     * @param highestVersion see the field
     */
    public Open(int lowestVersion, int highestVersion) {
        this.lowestVersion = lowestVersion;
        this.highestVersion = highestVersion;
    }

    static Open read(CborReader in) {
        return new Open(in.int32(), in.int32());
    }

    @Override
    public MessageType type() {
        return MessageType.OPEN;
    }

    @Override
    public int fields() {
        return 2;
    }

    @Override
    public void write(CborWriter out) {
        out.integer(lowestVersion);
        out.integer(highestVersion);
    }
}
