package snagbench.probe;

import snagbench.wire.Refusal;

/** What came of a request: done or refused, and the figure that goes with it. Used again and again. */
final class Outcome {
    private static final int DONE = 0;

    private int code;
    private int word;

    void done(int itsWord) {
        code = DONE;
        word = itsWord;
    }

    void done() {
        done(0);
    }

    void refused(Refusal why, int itsWord) {
        code = why.code();
        word = itsWord;
    }

    /** Refused for a field, counted from 0 behind the header. */
    void malformed(int field) {
        refused(Refusal.MALFORMED, field);
    }

    boolean isDone() {
        return code == DONE;
    }

    int code() {
        return code;
    }

    int word() {
        return word;
    }
}
