package snagbench.bench.script.read;

/** What becomes of a value between two steps of a channel's grid. */
enum Rounding {
    /** It is an error. */
    NONE,
    /** The step below. */
    DOWN,
    /** The step above. */
    UP
}
