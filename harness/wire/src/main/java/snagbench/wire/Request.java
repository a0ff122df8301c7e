package snagbench.wire;

import org.jspecify.annotations.Nullable;

/** A request of the bench: who asks, in which boot of the controller, the how-manieth, and what. */
public final class Request {
    /** Items of the header. */
    public static final int HEADER_FIELDS = 4;

    /** The bench's nonce for this session, not 0. */
    public final int session;

    /** The boot id that the greeting told; 0 in {@link Open}. */
    public final int boot;

    /** Number of the request in the session, from 1; a repeated request has the same. */
    public final int number;

    /** What is asked. */
    public final RequestBody body;

    /**
     * All parts in the order in which they travel, the type apart.
     *
     * @param session see the field
     * @param boot see the field
     * @param number see the field
     * @param body see the field
     */
    public Request(int session, int boot, int number, RequestBody body) {
        this.session = session;
        this.boot = boot;
        this.number = number;
        this.body = body;
    }

    /**
     * Writes the request as one frame.
     *
     * @param out takes the frame
     * @return false if it does not fit
     */
    public boolean write(FrameWriter out) {
        CborWriter payload = out.begin();
        payload.array(HEADER_FIELDS + body.fields());
        payload.integer(body.type().code());
        payload.integer(session & 0xFFFFFFFFL);
        payload.integer(boot & 0xFFFFFFFFL);
        payload.integer(number & 0xFFFFFFFFL);
        body.write(payload);
        return out.end();
    }

    /**
     * Reads a whole request.
     *
     * @param in at the head of the array
     * @return the request, or null if it is none, of an unknown type, or has fields too many, too few or malformed
     */
    public static @Nullable Request read(CborReader in) {
        RequestHeader header = new RequestHeader();
        if (!header.read(in)) {
            return null;
        }
        RequestBody body = readBody(header.type, in, header.fields);
        if (body == null || !in.complete() || body.fields() != header.fields) {
            return null;
        }
        return new Request(header.session, header.boot, header.number, body);
    }

    /**
     * Reads what follows the header.
     *
     * @param type code of the request
     * @param in behind the header
     * @param fields how many items follow
     * @return the body, or null for an unknown type; whether it is whole, {@link CborReader#complete()} tells
     */
    public static @Nullable RequestBody readBody(int type, CborReader in, int fields) {
        MessageType known = MessageType.of(type);
        if (known == null) {
            return null;
        }
        switch (known) {
            case OPEN:
                return Open.read(in);
            case ITEM_REQUEST:
                return ItemRequest.read(in);
            case WATCH:
                return Watch.read(in, fields);
            case ENTRY:
                return Entry.read(in);
            case TIMING:
                return Timing.read(in);
            case TERM:
                return Term.read(in);
            case POINT:
                return Point.read(in);
            case GUARD:
                return Guard.read(in);
            case ARM:
                return Arm.read(in);
            case KEEP:
                return Keep.read(in);
            case DO:
                return Do.read(in);
            case LET_GO:
                return LetGo.read(in);
            default:
                return null;
        }
    }
}
