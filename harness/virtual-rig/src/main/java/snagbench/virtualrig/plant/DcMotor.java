package snagbench.virtualrig.plant;

/**
 * A brushed motor with permanent magnets: {@code u = R*i + K*w} and {@code torque = K*i}. The winding's inductance is
 * neglected: its time constant (about 1 ms) is short beside the mechanical one. So is its warming.
 *
 * @param resistanceOhms R, of winding and bridge
 * @param constant K, in N*m/A, which is the same as V*s/rad
 * @param rotorInertia in kg*m^2
 */
public record DcMotor(double resistanceOhms, double constant, double rotorInertia) {
    /** Refuses figures that make no motor. */
    public DcMotor {
        if (!(resistanceOhms > 0) || !(constant > 0) || !(rotorInertia >= 0)) {
            throw new IllegalArgumentException("motor of " + resistanceOhms + " ohm, " + constant + " N*m/A, "
                    + rotorInertia + " kg*m^2; wanted above 0, above 0, at least 0");
        }
    }

    /**
     * A motor by the two ends of its straight line of torque over speed, friction left out.
     *
     * @param volts at which the line was taken
     * @param noLoadSpeed in rad/s
     * @param stallTorque in N*m
     * @param rotorInertia in kg*m^2
     * @return the motor
     */
    public static DcMotor ofLine(double volts, double noLoadSpeed, double stallTorque, double rotorInertia) {
        double constant = volts / noLoadSpeed;
        return new DcMotor(constant * volts / stallTorque, constant, rotorInertia);
    }

    /**
     * Current through the winding.
     *
     * @param volts across it
     * @param speed in rad/s
     * @return in A
     */
    public double current(double volts, double speed) {
        return (volts - constant * speed) / resistanceOhms;
    }

    /**
     * Torque on the rotor.
     *
     * @param volts across the winding
     * @param speed in rad/s
     * @return in N*m
     */
    public double torque(double volts, double speed) {
        return constant * current(volts, speed);
    }
}
