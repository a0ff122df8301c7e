package snagbench.bench.cli;

/** Something that the user can mend; the message says how. */
final class UserError extends Exception {
    private static final long serialVersionUID = 1L;

    private final int status;

    UserError(int status, String message) {
        super(message);
        this.status = status;
    }

    int status() {
        return status;
    }
}
