package snagbench.virtualrig.shuttle.control;

/** The shuttle's sensors, as they come in. */
public interface ShuttleInputs {
    /**
     * The reach arm's absolute encoder.
     *
     * @return in 0.1 mm from home, growing outwards
     */
    int reachPosition();

    /**
     * Current in the reach motor, whichever way.
     *
     * @return in 10 mA
     */
    int reachCurrent();

    /**
     * The beam across the gripper's fingers.
     *
     * @return 1 for broken, 0 for clear
     */
    int gripperBeam();

    /**
     * The battery at the controller's supply.
     *
     * @return in 10 mV
     */
    int batteryVoltage();
}
