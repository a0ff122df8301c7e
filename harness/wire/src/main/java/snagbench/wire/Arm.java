package snagbench.wire;

/** Starts the program that was loaded; refused where count or digest differ from what the rig holds. The tick that takes it is tick 0. */
public final class Arm implements RequestBody {
    /** How many entries the program has; 0 to listen only. */
    public final int entries;

    /** {@link ProgramDigest} over entries, timings, terms and points, in the order sent. */
    public final int digest;

    /** How many guards the session has. */
    public final int guards;

    /** {@link ProgramDigest} over the guards, in the order sent. */
    public final int guardDigest;

    /** Seed of noise, and of a virtual rig's variation. */
    public final int seed;

    /**
     * All fields in the order in which they travel.
     *
     * @param entries see the field
     * @param digest see the field
     * @param guards see the field
     * @param guardDigest see the field
     * @param seed see the field
     */
    public Arm(int entries, int digest, int guards, int guardDigest, int seed) {
        this.entries = entries;
        this.digest = digest;
        this.guards = guards;
        this.guardDigest = guardDigest;
        this.seed = seed;
    }

    static Arm read(CborReader in) {
        return new Arm(in.int32(), in.uint32(), in.int32(), in.uint32(), in.uint32());
    }

    @Override
    public MessageType type() {
        return MessageType.ARM;
    }

    @Override
    public int fields() {
        return 5;
    }

    @Override
    public void write(CborWriter out) {
        out.integer(entries);
        out.integer(digest & 0xFFFFFFFFL);
        out.integer(guards);
        out.integer(guardDigest & 0xFFFFFFFFL);
        out.integer(seed & 0xFFFFFFFFL);
    }
}
