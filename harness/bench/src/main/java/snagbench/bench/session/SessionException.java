package snagbench.bench.session;

/** The rig could not be talked to, or would not do what it was asked; the message is for the user. */
public final class SessionException extends Exception {
    private static final long serialVersionUID = 1L;

    private final Reason reason;

    /**
     * A failure.
     *
     * @param reason its kind
     * @param message a sentence for the user
     */
    public SessionException(Reason reason, String message) {
        super(message);
        this.reason = reason;
    }

    /**
     * A failure.
     *
     * @param reason its kind
     * @param message a sentence for the user
     * @param cause what was behind it
     */
    public SessionException(Reason reason, String message, Throwable cause) {
        super(message, cause);
        this.reason = reason;
    }

    /** The sentence for the user; there is always one. */
    @Override
    public String getMessage() {
        return String.valueOf(super.getMessage());
    }

    /**
     * What kind of failure it is.
     *
     * @return the reason
     */
    public Reason reason() {
        return reason;
    }

    /** Kinds of failure. */
    public enum Reason {
        /** The line is gone. */
        LINK,
        /** The rig does not answer, or not in time. */
        SILENT,
        /** The rig refused. */
        REFUSED,
        /** The rig refused, since a stop is latched on it. */
        LATCHED,
        /** The controller restarted. */
        RESTARTED,
        /** The user wants to stop. */
        CANCELLED
    }
}
