package snagbench.virtualrig.plant;

/**
 * An analogue-to-digital converter behind a noisy sensor.
 *
 * @param step size of one step, in the quantity's SI unit
 * @param deviation standard deviation of the noise, in the same unit
 * @param lowest least result, in steps
 * @param highest greatest result, in steps
 */
public record AnalogueInput(double step, double deviation, int lowest, int highest) {
    /**
     * Takes one reading.
     *
     * @param quantity in its SI unit
     * @param noise a generator of this input's own; one draw
     * @return in steps, rounded, within the range
     */
    public int read(double quantity, SplitMix64 noise) {
        double rounded = StrictMath.floor((quantity + deviation * noise.noise()) / step + 0.5);
        return (int) Math.max(lowest, Math.min(highest, rounded));
    }
}
