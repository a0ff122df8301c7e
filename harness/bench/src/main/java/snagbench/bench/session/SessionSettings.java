package snagbench.bench.session;

import java.util.function.BooleanSupplier;

/**
 * How a session goes about it. Times are on the link's clock.
 *
 * @param nonce names the session; another one for each, not 0
 * @param leaseMillis how long a lease lives unless renewed; it is renewed four times as often
 * @param answerMicros how long to wait for an answer before asking again
 * @param tries how often to ask before the rig counts as silent
 * @param stopMicros how long the safe stop may take until it is answered
 * @param cancelled true once the user wants to stop; asked in every duty cycle
 */
public record SessionSettings(
        int nonce, int leaseMillis, long answerMicros, int tries, long stopMicros, BooleanSupplier cancelled) {
    /** How long an answer usually takes at most, in microseconds. */
    public static final long USUAL_ANSWER_MICROS = 250_000;

    /** How often is asked, usually. */
    public static final int USUAL_TRIES = 8;

    /** How long a safe stop may take, usually, in microseconds. */
    public static final long USUAL_STOP_MICROS = 10_000_000;

    /**
     * The usual times.
     *
     * @param nonce names the session
     * @param leaseMillis how long a lease lives unless renewed
     * @param cancelled true once the user wants to stop
     * @return settings
     */
    public static SessionSettings usual(int nonce, int leaseMillis, BooleanSupplier cancelled) {
        return new SessionSettings(nonce, leaseMillis, USUAL_ANSWER_MICROS, USUAL_TRIES, USUAL_STOP_MICROS, cancelled);
    }
}
