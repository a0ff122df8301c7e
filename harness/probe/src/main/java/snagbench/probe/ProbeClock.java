package snagbench.probe;

/** The controller's own clock. */
public interface ProbeClock {
    /**
     * Reads the clock.
     *
     * @return microseconds modulo 2^32, never running backwards
     */
    int micros();
}
