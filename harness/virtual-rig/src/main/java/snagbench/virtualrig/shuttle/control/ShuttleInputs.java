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
     * The beam across the throat.
     *
     * @return 1 for broken, 0 for clear
     */
    int throatBeam();

    /**
     * The lift's absolute encoder.
     *
     * @return in 0.1 mm from its lowest place, growing upwards
     */
    int liftPosition();

    /**
     * Current in the lift motor, whichever way.
     *
     * @return in 10 mA
     */
    int liftCurrent();

    /**
     * The measuring wheels' mean.
     *
     * @return in 0.1 mm from its place at the rack, growing towards the shelf
     */
    int basePosition();

    /**
     * The base's heading.
     *
     * @return in 0.1 degrees, growing to the left
     */
    int baseHeading();

    /**
     * The distance sensor at the front.
     *
     * @return in 0.1 mm to whatever stands there
     */
    int frontDistance();

    /**
     * The battery at the controller's supply.
     *
     * @return in 10 mV
     */
    int batteryVoltage();
}
