package snagbench.wire;

import org.jspecify.annotations.Nullable;

/**
 * The rig's greeting, sent at boot (session and number 0) and as the answer to {@link Open}. So that it fits 64 bytes, a
 * rig of 64-byte frames keeps to small figures; {@code firmware-notes/wire-format.md} lists them.
 */
public final class Hello implements Reply {
    private static final int FIELDS = 20;

    /** Session that was opened; 0 at boot. */
    public final int session;

    /** Number of the request that it answers; 0 at boot. */
    public final int number;

    /** Wire version that the rig speaks from now on. */
    public final int version;

    /** Boot id: another one after each restart of the controller, not 0. */
    public final int boot;

    /** Code of a {@link ResetCause}. */
    public final int cause;

    /** 0 for a virtual rig, 1 for a real one. */
    public final int real;

    /** CRC-32 over the items of the description. */
    public final int digest;

    /** How many items the description has. */
    public final int items;

    /** How many channels there are. */
    public final int channels;

    /** Loop time in microseconds where it is fixed; 0 for a loop that runs free. */
    public final int tickMicros;

    /** How many entries a program may have, up to 32. */
    public final int slots;

    /** How many terms a program may have. */
    public final int terms;

    /** How many replay points a program may have. */
    public final int points;

    /** How many guards a session may have. */
    public final int guards;

    /** How many events are kept until seen. */
    public final int ring;

    /** Longest frame that the rig takes and sends, in bytes. */
    public final int frame;

    /** Which {@link EntryKind}s the rig can do: bit n for code n, up to code 10; above them, what is {@link LeftOut}. */
    public final int kinds;

    /** How long the delays of a program may be, in ticks, all added up. */
    public final int history;

    /** Name of the control code's build, up to 12 bytes. */
    public final String build;

    /**
     * All fields in the order in which they travel.
     *
     * @param session see the field
     * @param number see the field
     * @param version see the field
     * @param boot see the field
     * @param cause see the field
     * @param real see the field
     * @param digest see the field
     * @param items see the field
     * @param channels see the field
     * @param tickMicros see the field
     * @param slots see the field
     * @param terms see the field
     * @param points see the field
     * @param guards see the field
     * @param ring see the field
     * @param frame see the field
     * @param kinds see the field
     * @param history see the field
     * @param build see the field
     */
    public Hello(
            int session,
            int number,
            int version,
            int boot,
            int cause,
            int real,
            int digest,
            int items,
            int channels,
            int tickMicros,
            int slots,
            int terms,
            int points,
            int guards,
            int ring,
            int frame,
            int kinds,
            int history,
            String build) {
        this.session = session;
        this.number = number;
        this.version = version;
        this.boot = boot;
        this.cause = cause;
        this.real = real;
        this.digest = digest;
        this.items = items;
        this.channels = channels;
        this.tickMicros = tickMicros;
        this.slots = slots;
        this.terms = terms;
        this.points = points;
        this.guards = guards;
        this.ring = ring;
        this.frame = frame;
        this.kinds = kinds;
        this.history = history;
        this.build = build;
    }

    static @Nullable Hello read(CborReader in, int fields) {
        if (fields != FIELDS - 1) {
            return null;
        }
        return new Hello(
                in.uint32(),
                in.uint32(),
                in.int32(),
                in.uint32(),
                in.int32(),
                in.int32(),
                in.uint32(),
                in.int32(),
                in.int32(),
                in.int32(),
                in.int32(),
                in.int32(),
                in.int32(),
                in.int32(),
                in.int32(),
                in.int32(),
                in.uint32(),
                in.int32(),
                in.text());
    }

    @Override
    public void write(CborWriter out) {
        out.array(FIELDS);
        out.integer(MessageType.HELLO.code());
        out.integer(session & 0xFFFFFFFFL);
        out.integer(number & 0xFFFFFFFFL);
        out.integer(version);
        out.integer(boot & 0xFFFFFFFFL);
        out.integer(cause);
        out.integer(real);
        out.integer(digest & 0xFFFFFFFFL);
        out.integer(items);
        out.integer(channels);
        out.integer(tickMicros);
        out.integer(slots);
        out.integer(terms);
        out.integer(points);
        out.integer(guards);
        out.integer(ring);
        out.integer(frame);
        out.integer(kinds & 0xFFFFFFFFL);
        out.integer(history);
        out.text(build);
    }
}
