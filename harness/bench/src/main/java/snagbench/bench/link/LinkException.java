package snagbench.bench.link;

/** The line to the rig failed; the message is for the user. */
public final class LinkException extends Exception {
    private static final long serialVersionUID = 1L;

    /**
     * A failure with a cause.
     *
     * @param message a sentence for the user: what failed, and what to do
     * @param cause what was behind it
     */
    public LinkException(String message, Throwable cause) {
        super(message, cause);
    }

    /**
     * A failure.
     *
     * @param message a sentence for the user: what failed, and what to do
     */
    public LinkException(String message) {
        super(message);
    }
}
