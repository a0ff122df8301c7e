package snagbench.probe;

/**
 * A virtual rig: control code with a probe, its controller and its plant, run by whoever holds it. Bytes in, bytes out,
 * and time that stands still but for {@link #runUntil}. Nothing here waits, and nothing runs between calls.
 *
 * <p>An implementation need not be thread-safe.
 */
public interface VirtualRig {
    /**
     * The plant's clock; it goes on through restarts of the controller.
     *
     * @return microseconds since the rig was made
     */
    long nowMicros();

    /**
     * Puts bytes on the line to the rig.
     *
     * @param bytes hold them
     * @param from first byte
     * @param length how many
     */
    void send(byte[] bytes, int from, int length);

    /**
     * Takes bytes that the rig has put on the line.
     *
     * @param into takes them, from its first byte on
     * @return how many, 0 when there are none
     */
    int receive(byte[] into);

    /**
     * Lets the rig run on until there are bytes to receive or its clock has reached a time, whichever comes first. What
     * the rig does must not hang on how its time is cut into calls.
     *
     * @param micros time on {@link #nowMicros()}; nothing happens if it is past
     */
    void runUntil(long micros);
}
