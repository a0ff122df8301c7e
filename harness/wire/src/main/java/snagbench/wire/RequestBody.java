package snagbench.wire;

/** What a request carries behind its header {@code [type, session, boot, number]}. */
public interface RequestBody {
    /**
     * The type of the message.
     *
     * @return the type
     */
    MessageType type();

    /**
     * How many items {@link #write} writes.
     *
     * @return a count
     */
    int fields();

    /**
     * Writes the fields in the order in which they travel.
     *
     * @param out takes them
     */
    void write(CborWriter out);
}
