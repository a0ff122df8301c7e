package snagbench.bench.link;

import java.util.List;

/**
 * The line to one rig. It has a clock of its own; a rig's controller has another.
 *
 * <p>Not thread-safe: it belongs to the thread of the session.
 */
public interface Link extends AutoCloseable {
    /**
     * The link's clock: the wall's on a cable, the plant's on a virtual rig in this process. It only runs forward.
     *
     * @return microseconds since some moment
     */
    long nowMicros();

    /**
     * Sends bytes.
     *
     * @param bytes hold them, from the first on
     * @param length how many
     * @throws LinkException if they cannot be sent
     */
    void send(byte[] bytes, int length) throws LinkException;

    /**
     * Waits for bytes, or until a time.
     *
     * @param into takes what came, from its first byte on
     * @param untilMicros time on {@link #nowMicros()} until which to wait; what is there already is taken in any case
     * @return how many bytes came; 0 if the time came first
     * @throws LinkException if the line is gone
     */
    int receive(byte[] into, long untilMicros) throws LinkException;

    /**
     * What it is, for messages.
     *
     * @return such as "virtual rig seedling-shuttle"
     */
    String name();

    /**
     * Other programs that have the line open now, and may take away bytes of it. To be asked when some are missing.
     *
     * @return such as "cat (process 1234)"; empty if there is none, or none can be seen
     */
    default List<String> others() {
        return List.of();
    }

    /** Lets the line go. Nothing is sent any more. */
    @Override
    void close();
}
