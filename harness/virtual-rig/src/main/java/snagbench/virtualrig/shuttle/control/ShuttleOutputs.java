package snagbench.virtualrig.shuttle.control;

/** The shuttle's actuators. */
public interface ShuttleOutputs {
    /**
     * Drives the reach motor.
     *
     * @param drive in 0.1 %, from -1000 to 1000, above 0 outwards; 0 shorts the motor, which brakes it
     */
    void reach(int drive);

    /**
     * Moves the gripper's fingers.
     *
     * @param closed 1 to close, 0 to open
     */
    void gripper(int closed);
}
