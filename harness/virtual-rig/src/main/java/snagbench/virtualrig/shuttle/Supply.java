package snagbench.virtualrig.shuttle;

import snagbench.virtualrig.plant.Battery;

/**
 * Battery, electronics, and what the motors take. Each motor sees the battery behind the current of all the others as it
 * was a step before.
 */
final class Supply {
    /** Places of the motors. */
    static final int REACH = 0;

    static final int LIFT = 1;
    static final int LEFT_WHEEL = 2;
    static final int RIGHT_WHEEL = 3;
    private static final int MOTORS = 4;

    private static final double BATTERY_OHMS = 0.08;
    /** 0.8 V over 20,000 C, as of a lead battery of 7 A*h down to a fifth (from memory). */
    private static final double VOLTS_PER_COULOMB = 4e-5;

    private static final double ELECTRONICS_AMPERES = 0.35;

    private final Battery battery = new Battery(BATTERY_OHMS, VOLTS_PER_COULOMB);
    private final double builtInWear;
    private final double[] taken = new double[MOTORS];
    private double sum;

    Supply(double builtInWearOhms) {
        builtInWear = builtInWearOhms;
        battery.wear(builtInWearOhms);
    }

    void reset(double openVolts) {
        battery.reset(openVolts);
        battery.wear(builtInWear);
        java.util.Arrays.fill(taken, 0);
        sum = 0;
    }

    /** More internal resistance than this shuttle's battery has by itself, in ohm. */
    void weaken(double ohms) {
        battery.wear(builtInWear + ohms);
    }

    /** Open-circuit voltage as that motor sees it, in V. */
    double voltsFor(int motor) {
        return battery.terminalVolts(ELECTRONICS_AMPERES + (sum - taken[motor]));
    }

    double ohms() {
        return battery.internalOhms();
    }

    /** Takes note of what a motor takes from now on, in A, and of the charge it took, in C. */
    void takes(int motor, double amperes, double coulombs) {
        taken[motor] = amperes;
        sum = taken[REACH] + taken[LIFT] + taken[LEFT_WHEEL] + taken[RIGHT_WHEEL];
        battery.draw(coulombs);
    }

    void electronics(double seconds) {
        battery.draw(ELECTRONICS_AMPERES * seconds);
    }

    /** At the terminals, in V. */
    double volts() {
        return battery.terminalVolts(ELECTRONICS_AMPERES + sum);
    }
}
