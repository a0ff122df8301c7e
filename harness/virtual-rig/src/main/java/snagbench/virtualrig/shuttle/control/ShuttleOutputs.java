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

    /**
     * Drives the lift motor.
     *
     * @param drive in 0.1 %, from -1000 to 1000, above 0 upwards; at 0 the spindle holds its load
     */
    void lift(int drive);

    /**
     * Moves the clamp of the lift's cup.
     *
     * @param closed 1 to clamp, 0 to let go
     */
    void latch(int closed);

    /**
     * Drives the base.
     *
     * @param forward in 0.1 %, from -1000 to 1000, above 0 towards the shelf
     * @param steer in 0.1 %, what the right side gets more and the left side less
     */
    void base(int forward, int steer);
}
