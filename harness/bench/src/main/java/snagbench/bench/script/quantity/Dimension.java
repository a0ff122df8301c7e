package snagbench.bench.script.quantity;

/** What a unit measures. Units of one dimension convert into each other. */
public enum Dimension {
    /** A length. */
    LENGTH,
    /** A speed. */
    SPEED,
    /** An electric current. */
    CURRENT,
    /** A voltage. */
    VOLTAGE,
    /** A part of a whole. */
    RATIO,
    /** A mass. */
    MASS,
    /** A frequency. */
    FREQUENCY,
    /** A time. */
    TIME
}
