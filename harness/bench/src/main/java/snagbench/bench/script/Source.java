package snagbench.bench.script;

/** Which reading a condition looks at. */
public enum Source {
    /** As it came in. */
    REAL,
    /** As the control code was given it. */
    TOLD
}
