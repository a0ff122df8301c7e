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
 * @param greetingMicros how long to ask for the greeting until the rig counts as silent
 * @param busyMicros how long to go on asking a rig that is busy with another session or with a stop; 0 for not at all
 * @param cancelled true once the user wants to stop; asked in every duty cycle
 */
public record SessionSettings(
        int nonce,
        int leaseMillis,
        long answerMicros,
        int tries,
        long stopMicros,
        long greetingMicros,
        long busyMicros,
        BooleanSupplier cancelled) {
    /** How long a rig may be silent, usually, in microseconds, while it is asked again and again. */
    public static final long USUAL_SILENCE_MICROS = 2_000_000;

    /**
     * How long a board may take that restarts when its port is opened, in microseconds: its boot loader waits for a new
     * program first, for one or two seconds on many boards. Common practice, no source.
     */
    public static final long BOARD_GREETING_MICROS = 6_000_000;

    private static final int FAR_APART_BITS = 29;

    /** No answer is waited for longer than this, in microseconds, before asking again. */
    private static final long LONGEST_ANSWER_MICROS = 250_000;

    /**
     * So often at least is asked within a lease: a lease is not to run out because a request or two were lost, neither that
     * for the lease itself nor another one, behind which it has to wait.
     */
    private static final int TRIES_PER_LEASE = 10;

    private static final long MICROS_PER_MILLI = 1000;

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
        long answer = Math.max(1, Math.min(LONGEST_ANSWER_MICROS, leaseMillis * MICROS_PER_MILLI / TRIES_PER_LEASE));
        int tries = (int) ((USUAL_SILENCE_MICROS + answer - 1) / answer);
        return new SessionSettings(
                nonce, leaseMillis, answer, tries, USUAL_STOP_MICROS, USUAL_SILENCE_MICROS, 0, cancelled);
    }

    /**
     * The same, with another patience for the greeting.
     *
     * @param micros how long to ask for it
     * @param busy how long to go on asking a rig that is busy
     * @return settings
     */
    public SessionSettings withGreeting(long micros, long busy) {
        return new SessionSettings(nonce, leaseMillis, answerMicros, tries, stopMicros, micros, busy, cancelled);
    }

    /** The same under another name, for a session that has to begin anew; numbers given out in order do not come up there. */
    SessionSettings again(int starts) {
        int another = nonce + ((starts - 1) << FAR_APART_BITS);
        return new SessionSettings(
                another, leaseMillis, answerMicros, tries, stopMicros, greetingMicros, busyMicros, cancelled);
    }
}
