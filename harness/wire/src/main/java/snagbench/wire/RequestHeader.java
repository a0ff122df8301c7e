package snagbench.wire;

/** The head of a request, read again and again into the same object, so that the rig allocates nothing for it. */
public final class RequestHeader {
    /** Code of a {@link MessageType}. */
    public int type;

    /** Session of the request. */
    public int session;

    /** Boot of the request. */
    public int boot;

    /** Number of the request. */
    public int number;

    /** Items that follow the header. */
    public int fields;

    /** Starts with all fields 0. */
    public RequestHeader() {}

    /**
     * Reads a header.
     *
     * @param in at the head of the array; left at the first item behind the header
     * @return false if it is no request
     */
    public boolean read(CborReader in) {
        fields = in.array() - Request.HEADER_FIELDS;
        type = in.int32();
        session = in.uint32();
        boot = in.uint32();
        number = in.uint32();
        return !in.failed() && fields >= 0;
    }
}
