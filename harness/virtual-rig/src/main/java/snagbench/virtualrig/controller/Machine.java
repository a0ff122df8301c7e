package snagbench.virtualrig.controller;

/** What a virtual controller sits in: its supply, and all that its outputs move. */
public interface Machine {
    /**
     * Puts everything back to where a run begins.
     *
     * @param seed of what varies from run to run
     */
    void reset(int seed);

    /**
     * Lets time pass for it.
     *
     * @param micros how much, at most {@link VirtualController#SUB_STEP_MICROS}
     */
    void advance(int micros);

    /**
     * The controller's supply as it is now.
     *
     * @return in V
     */
    double supplyVolts();

    /** The controller lost its supply: its outputs fall to rest. */
    void outputsOff();

    /**
     * Starts the firmware, after power-on and after each reset.
     *
     * @param boot what the controller gives to it
     * @return the firmware, which has not ticked yet
     */
    Firmware boot(Boot boot);
}
