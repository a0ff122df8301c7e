package snagbench.virtualrig.plant;

/**
 * A slide that a geared motor moves between two stops, fed by a bridge from a battery.
 *
 * <p>The bridge is seen over whole PWM periods: at duty d (from -1 to 1) it puts d times its supply on the motor and
 * takes d times the motor's current from the supply; the rest of the period the winding is shorted, so that duty 0
 * brakes. With a supply of open-circuit voltage E and internal resistance r, voltage and current depend on each other:
 *
 * <pre>
 * U = E - r*d*i,   d*U = R*i + K*w   hence   i = (d*E - K*w) / (R + d^2*r)
 * </pre>
 *
 * <p>With G = K / (metres of slide per radian of motor), m the moving mass and the rotor's inertia seen at the slide, b
 * viscous and c Coulomb friction, the slide follows {@code m*v' = G*i - b*v - c*sign(v)} with {@code K*w = G*v}. While E,
 * d and the sign of v stay, that is one decaying exponential, and {@link #advance} takes it as such; a step is parted
 * where the slide turns. So only the change of E within a step is an approximation. Stops are inelastic: what meets one
 * stands, rotor included, until the step is over at least. At rest, stiction holds until the drive exceeds it. A steady
 * force from outside (a weight on a lift) adds to the motor's.
 *
 * <p>This class is not thread-safe.
 */
public final class MotorSlide {
    /** Up to the turn, and from the turn on: under a steady drive there is no second one. */
    private static final int MOST_PARTS = 2;

    private final double resistance;
    private final double gain;
    private final double mass;

    private Friction friction;
    private double lowest = Double.NEGATIVE_INFINITY;
    private double highest = Double.POSITIVE_INFINITY;
    private double load;
    private double position;
    private double speed;

    private double knownDuty = Double.NaN;
    private double knownOhms = Double.NaN;
    private double knownSeconds = Double.NaN;
    private double conductance;
    private double mobility;
    private double timeConstant;
    private double decay;

    /**
     * A slide at rest at 0, without friction or stops.
     *
     * @param motor drives it
     * @param metresPerRadian of the motor, above 0
     * @param movingKilograms of the slide, at least 0
     */
    public MotorSlide(DcMotor motor, double metresPerRadian, double movingKilograms) {
        if (!(metresPerRadian > 0) || !(movingKilograms >= 0)) {
            throw new IllegalArgumentException(
                    "slide of " + metresPerRadian + " m/rad, " + movingKilograms + " kg; wanted above 0, at least 0");
        }
        resistance = motor.resistanceOhms();
        gain = motor.constant() / metresPerRadian;
        mass = movingKilograms + motor.rotorInertia() / (metresPerRadian * metresPerRadian);
        friction = new Friction(0, 0, 0);
        if (!(mass > 0)) {
            throw new IllegalArgumentException("slide and rotor without mass");
        }
    }

    /**
     * Sets the friction.
     *
     * @param felt at the slide, gearing included
     */
    public void setFriction(Friction felt) {
        friction = felt;
        knownDuty = Double.NaN;
    }

    /**
     * Puts the stops. Where the slide is beyond one already, that one holds it where it is.
     *
     * @param lowestMetres it cannot go below
     * @param highestMetres it cannot go above
     */
    public void setStops(double lowestMetres, double highestMetres) {
        lowest = lowestMetres;
        highest = highestMetres;
    }

    /**
     * Puts it somewhere, at rest.
     *
     * @param metres where
     */
    public void place(double metres) {
        position = metres;
        speed = 0;
    }

    /**
     * Sets the steady force that acts from outside.
     *
     * @param newtons above 0 towards higher positions
     */
    public void setLoad(double newtons) {
        load = newtons;
    }

    /**
     * Puts it somewhere, moving.
     *
     * @param metres where
     * @param metresPerSecond how fast
     */
    public void set(double metres, double metresPerSecond) {
        position = metres;
        speed = metresPerSecond;
    }

    /**
     * Where it is.
     *
     * @return in m
     */
    public double position() {
        return position;
    }

    /**
     * How fast it goes.
     *
     * @return in m/s
     */
    public double speed() {
        return speed;
    }

    /**
     * What moves when the slide does, the rotor's inertia as a mass at the slide.
     *
     * @return in kg
     */
    public double effectiveMass() {
        return mass;
    }

    /**
     * Force of the motor at the slide for each ampere, friction left out.
     *
     * @return in N/A, which is also the back-EMF in V*s/m
     */
    public double newtonsPerAmpere() {
        return gain;
    }

    /**
     * Current through the motor as it moves now.
     *
     * @param duty from -1 to 1
     * @param sourceVolts open-circuit voltage of the supply
     * @param sourceOhms internal resistance of the supply
     * @return in A, below 0 where it pushes towards lower positions
     */
    public double motorAmperes(double duty, double sourceVolts, double sourceOhms) {
        double siemens = duty == knownDuty && sourceOhms == knownOhms ? conductance : conductance(duty, sourceOhms);
        return (duty * sourceVolts - gain * speed) * siemens;
    }

    /**
     * Lets time pass.
     *
     * @param seconds how much, above 0
     * @param duty from -1 to 1; 0 brakes
     * @param sourceVolts open-circuit voltage of the supply
     * @param sourceOhms internal resistance of the supply
     * @return charge taken from the supply in C; below 0 where the motor gave some back
     */
    public double advance(double seconds, double duty, double sourceVolts, double sourceOhms) {
        prepare(seconds, duty, sourceOhms);
        double drive = gain * duty * sourceVolts * conductance + load;
        double left = seconds;
        double travelled = 0;
        for (int part = 0; left > 0 && part < MOST_PARTS; part++) {
            double way = speed != 0 ? Math.signum(speed) : wayFromRest(drive);
            if (way == 0) {
                break;
            }
            double before = position;
            left -= move(left, left == seconds, way, drive);
            travelled += position - before;
        }
        return duty * (duty * sourceVolts * seconds - gain * travelled) * conductance;
    }

    private void prepare(double seconds, double duty, double sourceOhms) {
        if (duty == knownDuty && sourceOhms == knownOhms) {
            if (seconds != knownSeconds) {
                knownSeconds = seconds;
                decay = StrictMath.expm1(-seconds / timeConstant);
            }
            return;
        }
        knownDuty = duty;
        knownOhms = sourceOhms;
        knownSeconds = seconds;
        conductance = conductance(duty, sourceOhms);
        mobility = 1 / (gain * gain * conductance + friction.viscous());
        timeConstant = mass * mobility;
        decay = StrictMath.expm1(-seconds / timeConstant);
    }

    /** Of motor and supply together, as current by the source's voltage times the duty. */
    private double conductance(double duty, double sourceOhms) {
        return 1 / (resistance + duty * duty * sourceOhms);
    }

    /** Which way it sets off under motor and load: 1, -1, or 0 where stiction or a stop holds it. */
    private double wayFromRest(double drive) {
        if (drive > friction.stictionNewtons() && position < highest) {
            return 1;
        }
        return drive < -friction.stictionNewtons() && position > lowest ? -1 : 0;
    }

    /** Moves one way until the time is over or it turns; returns the time taken. */
    private double move(double seconds, boolean wholeStep, double way, double drive) {
        double finalSpeed = (drive - way * friction.coulombNewtons()) * mobility;
        double excess = speed - finalSpeed;
        double time = seconds;
        double fallen = wholeStep ? decay : StrictMath.expm1(-seconds / timeConstant);
        boolean turns = (speed + excess * fallen) * way < 0;
        if (turns) {
            time = Math.min(seconds, timeConstant * StrictMath.log(excess / -finalSpeed));
            fallen = StrictMath.expm1(-time / timeConstant);
        }
        double stop = way > 0 ? Math.max(highest, position) : Math.min(lowest, position);
        double end = position + finalSpeed * time - excess * timeConstant * fallen;
        if ((end - stop) * way >= 0) {
            position = stop;
            speed = 0;
            return seconds;
        }
        position = end;
        speed = turns ? 0 : speed + excess * fallen;
        return time;
    }
}
