package snagbench.virtualrig.plant;

/**
 * A battery: an open-circuit voltage that falls in a straight line with the charge drawn, behind an internal resistance.
 * It has no recovery after rest, and no temperature.
 *
 * <p>This class is not thread-safe.
 */
public final class Battery {
    private final double internalOhms;
    private final double voltsPerCoulomb;
    private double wornOhms;
    private double startVolts;
    private double drawn;

    /**
     * A battery before its first {@link #reset}.
     *
     * @param internalOhms with wires and connectors, at least 0
     * @param voltsPerCoulomb by how much the open-circuit voltage falls, at least 0
     */
    public Battery(double internalOhms, double voltsPerCoulomb) {
        if (!(internalOhms >= 0) || !(voltsPerCoulomb >= 0)) {
            throw new IllegalArgumentException(
                    "battery of " + internalOhms + " ohm, falling " + voltsPerCoulomb + " V/C; wanted none below 0");
        }
        this.internalOhms = internalOhms;
        this.voltsPerCoulomb = voltsPerCoulomb;
    }

    /**
     * Makes it weaker than it was built, or as it was.
     *
     * @param ohms more internal resistance, at least 0
     */
    public void wear(double ohms) {
        if (!(ohms >= 0)) {
            throw new IllegalArgumentException("battery worn by " + ohms + " ohm; wanted at least 0");
        }
        wornOhms = ohms;
    }

    /**
     * Puts in a battery that has rested.
     *
     * @param openVolts its open-circuit voltage
     */
    public void reset(double openVolts) {
        startVolts = openVolts;
        drawn = 0;
    }

    /**
     * Takes charge out.
     *
     * @param coulombs below 0 puts charge in
     */
    public void draw(double coulombs) {
        drawn += coulombs;
    }

    /**
     * Open-circuit voltage now.
     *
     * @return in V
     */
    public double openVolts() {
        return startVolts - voltsPerCoulomb * drawn;
    }

    /**
     * Internal resistance, wear included.
     *
     * @return in ohm
     */
    public double internalOhms() {
        return internalOhms + wornOhms;
    }

    /**
     * Voltage at the terminals.
     *
     * @param amperes drawn
     * @return in V
     */
    public double terminalVolts(double amperes) {
        return openVolts() - internalOhms() * amperes;
    }

    /**
     * Charge drawn since the reset.
     *
     * @return in C
     */
    public double drawnCoulombs() {
        return drawn;
    }
}
