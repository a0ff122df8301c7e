package snagbench.bench.script.read;

/** What a condition is for. */
enum Use {
    /** A stage of the beginning. */
    WAIT_FOR("wait-for", true, true, false),
    /** What strikes an injection. */
    WHEN("when", true, true, false),
    /** What an injection needs to go on. */
    WHILE("while", false, false, false),
    /** What ends an injection. */
    UNTIL("until", true, true, false),
    /** An expectation. */
    BECOMES("becomes", false, true, true),
    /** An expectation. */
    STAYS("stays", false, false, true),
    /** An expectation. */
    SETTLES("settles", false, false, true),
    /** An expectation. */
    ALWAYS("always", false, false, true),
    /** An expectation. */
    NEVER("never", false, true, true),
    /** An expectation. */
    PEAK("peak", false, false, true),
    /** An expectation. */
    TIMES("times", true, true, true),
    /** What a derived channel is worked out from. */
    DERIVED("derived", false, false, true),
    /** How a fail-safe of the register sees its trouble. */
    SYMPTOM("symptoms", false, false, true),
    /** What readings must hold before a run of a plan. */
    START_ONLY_IF("start-only-if", false, false, false);

    private final String key;
    private final boolean takesAnswers;
    private final boolean takesEdges;
    private final boolean isOfTrace;

    Use(String key, boolean takesAnswers, boolean takesEdges, boolean isOfTrace) {
        this.key = key;
        this.takesAnswers = takesAnswers;
        this.takesEdges = takesEdges;
        this.isOfTrace = isOfTrace;
    }

    /** Its key in a file. */
    String key() {
        return key;
    }

    /** Whether "failsafe:" may stand in it. */
    boolean takesAnswers() {
        return takesAnswers;
    }

    /** Whether "rises to" and "falls to" may stand in it, which hold in one tick only. */
    boolean takesEdges() {
        return takesEdges;
    }

    /** Whether it is looked at in the trace, and not on the rig. */
    boolean isOfTrace() {
        return isOfTrace;
    }

    /** What to write in place of a "failsafe:" that may not. */
    String inPlaceOfAnswers() {
        return switch (this) {
            case WHILE -> "a fail-safe reports in one tick only, so that this would end at once: take \"until\"";
            case NEVER -> "write \"must-not-fire: FS-nn\" as an expectation of its own";
            case SYMPTOM -> "symptoms are what a fail-safe looks at: take channels";
            case START_ONLY_IF -> "a fail-safe reports in one tick only: take channels";
            default -> "write \"answered-by: FS-nn\" as an expectation of its own";
        };
    }
}
