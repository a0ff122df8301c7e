package snagbench.virtualrig.plant;

/**
 * An absolute encoder: it tells the whole increments passed, without noise, and knows its place after a restart.
 *
 * @param increment size of one, in m
 */
public record Encoder(double increment) {
    /**
     * Takes one reading.
     *
     * @param metres real position
     * @return in increments, rounded down
     */
    public int read(double metres) {
        return (int) StrictMath.floor(metres / increment);
    }
}
