package snagbench.bench.script.read;

/** What a condition is for. */
enum Use {
    /** A stage of the beginning. */
    WAIT_FOR("wait-for", true),
    /** What strikes an injection. */
    WHEN("when", true),
    /** What an injection needs to go on. */
    WHILE("while", false),
    /** What ends an injection. */
    UNTIL("until", true),
    /** An expectation. */
    BECOMES("becomes", false),
    /** An expectation. */
    ALWAYS("always", false),
    /** An expectation. */
    NEVER("never", false);

    private final String key;
    private final boolean takesAnswers;

    Use(String key, boolean takesAnswers) {
        this.key = key;
        this.takesAnswers = takesAnswers;
    }

    /** Its key in a file. */
    String key() {
        return key;
    }

    /** Whether "failsafe:" may stand in it. */
    boolean takesAnswers() {
        return takesAnswers;
    }

    /** What to write in place of a "failsafe:" that may not. */
    String inPlaceOfAnswers() {
        return switch (this) {
            case WHILE -> "a fail-safe reports in one tick only, so that this would end at once: take \"until\"";
            case NEVER -> "write \"must-not-fire: FS-nn\" as an expectation of its own";
            default -> "write \"answered-by: FS-nn\" as an expectation of its own";
        };
    }
}
