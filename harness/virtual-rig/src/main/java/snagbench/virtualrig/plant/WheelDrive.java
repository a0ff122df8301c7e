package snagbench.virtualrig.plant;

/**
 * Geared motors that drive a body over a floor by wheels with so much grip and no more. While the tyres can carry the
 * force, wheels and body move as one {@link MotorSlide}. Where they cannot, the wheels spin: then wheel and rotor are a
 * slide of their own under the tyres' steady friction, and the body is pushed by that same friction, until both have the
 * same speed again. A stop holds the body; wheels that push against it spin once their force exceeds the grip.
 *
 * <p>The tyres' force while they roll is taken from the body's own change of speed in the step before, so that spinning
 * begins a step late. Rolling friction of the body is neglected: all friction is in the gears.
 *
 * <p>This class is not thread-safe.
 */
public final class WheelDrive {
    private final MotorSlide rolling;
    private final MotorSlide wheels;
    private final double bodyKilograms;
    private final double gripNewtons;
    private Friction gears = new Friction(0, 0, 0);
    private double lowest = Double.NEGATIVE_INFINITY;
    private double highest = Double.POSITIVE_INFINITY;
    private double position;
    private double speed;
    /** Way of the tyres' force on the body while the wheels spin; 0 while they roll. */
    private double spin;

    /**
     * Standing at 0.
     *
     * @param motor all motors of this drive as one
     * @param metresPerRadian of the motor, above 0
     * @param bodyKilograms that these wheels move, above 0
     * @param gripNewtons most that the tyres carry, above 0
     */
    public WheelDrive(DcMotor motor, double metresPerRadian, double bodyKilograms, double gripNewtons) {
        if (!(bodyKilograms > 0) || !(gripNewtons > 0)) {
            throw new IllegalArgumentException(
                    "body of " + bodyKilograms + " kg, grip of " + gripNewtons + " N; wanted both above 0");
        }
        this.bodyKilograms = bodyKilograms;
        this.gripNewtons = gripNewtons;
        rolling = new MotorSlide(motor, metresPerRadian, bodyKilograms);
        wheels = new MotorSlide(motor, metresPerRadian, 0);
    }

    /**
     * Sets the friction of the gears.
     *
     * @param felt at the floor
     */
    public void setFriction(Friction felt) {
        gears = felt;
        rolling.setFriction(felt);
        wheels.setFriction(felt);
    }

    /**
     * Puts what the body cannot pass. Where it is beyond one already, that one holds it where it is.
     *
     * @param lowestMetres it cannot go below
     * @param highestMetres it cannot go above
     */
    public void setStops(double lowestMetres, double highestMetres) {
        lowest = lowestMetres;
        highest = highestMetres;
        rolling.setStops(lowestMetres, highestMetres);
    }

    /**
     * Puts it somewhere, at rest.
     *
     * @param metres where
     */
    public void place(double metres) {
        position = metres;
        speed = 0;
        spin = 0;
        rolling.place(metres);
    }

    /**
     * Shoves the body over the floor, whatever its wheels do.
     *
     * @param metres how far
     */
    public void shove(double metres) {
        position += metres;
        rolling.set(position, rolling.speed());
    }

    /**
     * Where the body is, as a measuring wheel has it.
     *
     * @return in m
     */
    public double position() {
        return position;
    }

    /**
     * How fast the body goes.
     *
     * @return in m/s
     */
    public double speed() {
        return speed;
    }

    /**
     * Whether the wheels spin on the floor.
     *
     * @return false while they roll
     */
    public boolean isSpinning() {
        return spin != 0;
    }

    /**
     * Current through the motors as they turn now.
     *
     * @param duty from -1 to 1
     * @param sourceVolts open-circuit voltage of the supply
     * @param sourceOhms internal resistance of the supply
     * @return in A
     */
    public double motorAmperes(double duty, double sourceVolts, double sourceOhms) {
        return turning().motorAmperes(duty, sourceVolts, sourceOhms);
    }

    private MotorSlide turning() {
        return spin == 0 ? rolling : wheels;
    }

    /**
     * Lets time pass.
     *
     * @param seconds how much, above 0
     * @param duty from -1 to 1; 0 brakes
     * @param sourceVolts open-circuit voltage of the supply
     * @param sourceOhms internal resistance of the supply
     * @return charge taken from the supply in C
     */
    public double advance(double seconds, double duty, double sourceVolts, double sourceOhms) {
        return spin == 0 ? roll(seconds, duty, sourceVolts, sourceOhms) : spin(seconds, duty, sourceVolts, sourceOhms);
    }

    private double roll(double seconds, double duty, double sourceVolts, double sourceOhms) {
        double charge = rolling.advance(seconds, duty, sourceVolts, sourceOhms);
        double force = bodyKilograms * (rolling.speed() - speed) / seconds;
        boolean meetsAStop = rolling.speed() == 0 && (rolling.position() >= highest || rolling.position() <= lowest);
        position = rolling.position();
        speed = rolling.speed();
        if (meetsAStop) {
            force = againstTheStop(rolling.motorAmperes(duty, sourceVolts, sourceOhms) * rolling.newtonsPerAmpere());
        }
        if (Math.abs(force) > gripNewtons) {
            spin = Math.signum(force);
            wheels.set(0, speed);
            wheels.setLoad(-spin * gripNewtons);
        }
        return charge;
    }

    /** What of the motors' force comes through to the floor while the body stands at a stop. */
    private double againstTheStop(double motorNewtons) {
        double through = Math.max(0, Math.abs(motorNewtons) - gears.stictionNewtons());
        boolean pushes = motorNewtons > 0 ? position >= highest : position <= lowest;
        return pushes ? Math.signum(motorNewtons) * through : 0;
    }

    private double spin(double seconds, double duty, double sourceVolts, double sourceOhms) {
        double charge = wheels.advance(seconds, duty, sourceVolts, sourceOhms);
        double before = speed;
        speed += spin * gripNewtons / bodyKilograms * seconds;
        position += (before + speed) / 2 * seconds;
        if ((position >= highest && speed > 0) || (position <= lowest && speed < 0)) {
            position = Math.min(highest, Math.max(lowest, position));
            speed = 0;
        }
        if ((wheels.speed() - speed) * spin <= 0) {
            spin = 0;
            rolling.set(position, speed);
        }
        return charge;
    }
}
