package snagbench.virtualrig.shuttle.control;

/** What the control code can look for; a build may leave some out. */
public enum Symptom {
    /** FS-01. */
    CURRENT_OVER_LIMIT,
    /** FS-02. */
    STOPPED_EARLY,
    /** FS-03. */
    GRIP_NOT_THERE
}
