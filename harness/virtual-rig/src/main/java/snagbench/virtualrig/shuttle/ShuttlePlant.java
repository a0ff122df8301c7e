package snagbench.virtualrig.shuttle;

import snagbench.virtualrig.plant.AnalogueInput;
import snagbench.virtualrig.plant.Encoder;
import snagbench.virtualrig.plant.SplitMix64;
import snagbench.virtualrig.shuttle.control.ShuttleInputs;
import snagbench.virtualrig.shuttle.control.ShuttleOutputs;

/**
 * The shuttle itself: arm, lift and base on one battery, the pot between rack, fingers, throat, lift and peg, and what
 * its sensors make of them. All figures are demo data.
 *
 * <p>This class is not thread-safe.
 */
final class ShuttlePlant implements ShuttleInputs, ShuttleOutputs {
    private static final double SECONDS_PER_MICRO = 1e-6;
    private static final double METRES_PER_STEP = 1e-4;
    private static final double DRIVE_STEPS = 1000;
    private static final double TENTHS = 10;
    private static final double HUNDREDTHS = 100;
    private static final double TENTH_DEGREES_PER_RADIAN = 1800 / Math.PI;

    private static final double FRICTION_SPREAD = 0.15;
    private static final double BEAM_BREAKS = 0.368;
    private static final double RACK_FACE = 0.392;
    private static final double RACK_SPREAD = 0.002;
    /** How far beside the fingers' middle a pot can be and still be taken. */
    private static final double FINGERS_REACH = 0.025;
    /** From the base's middle, about which it turns, to the arm's home. */
    private static final double ARM_FROM_MIDDLE = 0.25;
    /** Nearer than this the base is at the rack. */
    private static final double AT_RACK = 0.06;
    /** How well the cup must stand over the peg for the pot to stay there. */
    private static final double AT_PEG = 0.015;

    private static final double POT_SPREAD = 0.002;

    private static final double LOWEST_CHARGE_VOLTS = 12.4;
    private static final double HIGHEST_CHARGE_VOLTS = 12.7;
    private static final double WORN_BATTERY_OHMS = 1.92;
    private static final int SUPPLY_CUT_MICROS = 30_000;

    private static final Encoder ENCODER = new Encoder(METRES_PER_STEP);
    private static final AnalogueInput CURRENT = new AnalogueInput(0.01, 0.012, 0, 3000);
    private static final AnalogueInput VOLTAGE = new AnalogueInput(0.01, 0.008, 0, 2000);
    private static final AnalogueInput FRONT = new AnalogueInput(METRES_PER_STEP, 0.003, 0, 20_000);
    private static final AnalogueInput HEADING = new AnalogueInput(1 / TENTH_DEGREES_PER_RADIAN, 0.001, -900, 900);

    private static final int VARIATION_STREAM = 1;
    private static final int CURRENT_STREAM = 2;
    private static final int VOLTAGE_STREAM = 3;
    private static final int LIFT_CURRENT_STREAM = 4;
    private static final int FRONT_STREAM = 5;
    private static final int HEADING_STREAM = 6;
    private static final int POT_STREAM = 7;

    private final boolean hasRack;
    private final Supply supply;
    private final ReachUnit reach = new ReachUnit();
    private final LiftUnit lift = new LiftUnit();
    private final BaseUnit base = new BaseUnit();
    private final Pot pot = new Pot();
    private final Catch jam = new Catch();
    private final Catch rim = new Catch();
    private final Disturbances disturbed = new Disturbances();

    private SplitMix64 currentNoise = SplitMix64.stream(0, CURRENT_STREAM);
    private SplitMix64 voltageNoise = SplitMix64.stream(0, VOLTAGE_STREAM);
    private SplitMix64 liftCurrentNoise = SplitMix64.stream(0, LIFT_CURRENT_STREAM);
    private SplitMix64 frontNoise = SplitMix64.stream(0, FRONT_STREAM);
    private SplitMix64 headingNoise = SplitMix64.stream(0, HEADING_STREAM);
    private SplitMix64 potVariation = SplitMix64.stream(0, POT_STREAM);
    private double beamBreaks;
    private double rackFace;
    private double obstacle;
    private int supplyCutMicros;

    private int currentSample;
    private int voltageSample;
    private int liftCurrentSample;
    private int frontSample;
    private int headingSample;

    ShuttlePlant(boolean hasRack, boolean hasWornBattery) {
        this.hasRack = hasRack;
        supply = new Supply(hasWornBattery ? WORN_BATTERY_OHMS : 0);
        reset(0);
    }

    /** All home, pots in the rack, battery rested; friction, rack and charge as the seed has them. */
    void reset(int seed) {
        SplitMix64 variation = SplitMix64.stream(seed, VARIATION_STREAM);
        double reachStiffness = stiffness(variation);
        double rackShift = variation.between(-RACK_SPREAD, RACK_SPREAD);
        double charge = variation.between(LOWEST_CHARGE_VOLTS, HIGHEST_CHARGE_VOLTS);
        currentNoise = SplitMix64.stream(seed, CURRENT_STREAM);
        voltageNoise = SplitMix64.stream(seed, VOLTAGE_STREAM);
        liftCurrentNoise = SplitMix64.stream(seed, LIFT_CURRENT_STREAM);
        frontNoise = SplitMix64.stream(seed, FRONT_STREAM);
        headingNoise = SplitMix64.stream(seed, HEADING_STREAM);
        potVariation = SplitMix64.stream(seed, POT_STREAM);
        supply.reset(charge);
        reach.reset(reachStiffness);
        lift.reset(stiffness(variation));
        base.reset(stiffness(variation), stiffness(variation));
        pot.reset();
        jam.remove();
        rim.remove();
        disturbed.clear();
        beamBreaks = BEAM_BREAKS + rackShift;
        rackFace = RACK_FACE + rackShift;
        obstacle = Double.POSITIVE_INFINITY;
        supplyCutMicros = 0;
        setStops();
        sample();
    }

    private static double stiffness(SplitMix64 variation) {
        return variation.between(1 - FRICTION_SPREAD, 1 + FRICTION_SPREAD);
    }

    /** Motors shorted, fingers opening. */
    void outputsOff() {
        reach.off();
        lift.off();
        base.off();
    }

    void advance(int micros) {
        double seconds = micros * SECONDS_PER_MICRO;
        supplyCutMicros = Math.max(0, supplyCutMicros - micros);
        supply.electronics(seconds);
        reach.advance(seconds, supply);
        lift.advance(seconds, supply);
        base.advance(seconds, supply);
        movePot();
        comeLoose();
        setStops();
    }

    private void movePot() {
        double arm = reach.position();
        switch (pot.place()) {
            case RACK -> {
                if (reach.takesHold() && isPotBetweenFingers() && disturbed.potSlips == 0) {
                    double off = disturbed.potOffset != 0
                            ? disturbed.potOffset * METRES_PER_STEP
                            : POT_SPREAD * potVariation.noise();
                    pot.gripped(off);
                }
            }
            case FINGERS -> {
                if (pot.catchesAtRim() && !rim.isThere() && arm > Pot.rim()) {
                    rim.put(Pot.rim());
                }
                if (disturbed.potSlips != 0 && !pot.isInThroat(arm)) {
                    pot.letGo(arm, isPotAtRack());
                } else if (reach.letsGo() && !isHeldByLift()) {
                    pot.letGo(arm, isPotAtRack());
                }
                takeByLift();
            }
            case THROAT -> {
                if (reach.takesHold()) {
                    pot.gripped(0);
                }
                takeByLift();
            }
            case LIFT -> {
                if (lift.isOpen()) {
                    if (isOverPeg()) {
                        pot.set();
                    } else {
                        pot.lose();
                    }
                    lift.load(false);
                }
            }
        }
    }

    /** The cup has it while the fingers open. */
    private boolean isHeldByLift() {
        return lift.isLatched() && pot.isInThroat(reach.position());
    }

    private void takeByLift() {
        boolean lifts = lift.position() > 0.005 && lift.isLatched();
        if (lifts && reach.letsGo() && pot.isInThroat(reach.position()) && disturbed.potStays == 0) {
            pot.taken();
            lift.load(true);
        }
    }

    private boolean isOverPeg() {
        return Math.abs(base.position() - BaseUnit.SHELF_PLACE) <= AT_PEG;
    }

    private void comeLoose() {
        jam.comesLoose(reach.position(), base.position());
        if (rim.comesLoose(reach.position(), base.position())) {
            pot.centre();
        } else if (rim.isThere() && !pot.catchesAtRim()) {
            rim.remove();
        }
    }

    private void setStops() {
        double inner = Math.max(ReachUnit.INNER_STOP, Math.max(jam.place(), rim.place()));
        double face = hasRack ? rackFace + base.position() : ReachUnit.OUTER_STOP;
        reach.stops(inner, Math.min(Math.min(face, ReachUnit.OUTER_STOP), obstacle));
    }

    private boolean isPotBetweenFingers() {
        return hasRack && isPotAtRack() && reach.position() >= beamBreaks + base.position();
    }

    private boolean isPotAtRack() {
        double beside = (ARM_FROM_MIDDLE + reach.position()) * StrictMath.sin(base.heading());
        return disturbed.rackEmpty == 0 && base.position() < AT_RACK && Math.abs(beside) <= FINGERS_REACH;
    }

    /** At the terminals, which are the controller's supply. */
    double supplyVolts() {
        return supplyCutMicros > 0 ? 0 : supply.volts();
    }

    /** Takes this tick's readings of the noisy sensors, one draw each, however often they are asked for. */
    void sample() {
        currentSample = CURRENT.read(Math.abs(reach.amperes(supply)), currentNoise);
        liftCurrentSample = CURRENT.read(Math.abs(lift.amperes(supply)), liftCurrentNoise);
        voltageSample = VOLTAGE.read(supply.volts(), voltageNoise);
        frontSample = FRONT.read(base.frontDistance(), frontNoise);
        headingSample = HEADING.read(base.heading(), headingNoise);
    }

    /** Puts something solid in the arm's way, and nothing else. */
    void putObstacle(int steps) {
        Disturbances alone = new Disturbances();
        alone.obstacle = steps;
        disturb(alone);
    }

    /**
     * Does what the bench wants done. Obstacle, jam, shove and cut act when they change: nothing is put where the arm is
     * already, or has passed.
     *
     * @param wanted all of it, not kept
     */
    void disturb(Disturbances wanted) {
        if (wanted.obstacle != disturbed.obstacle) {
            disturbed.obstacle = wanted.obstacle;
            double place = wanted.obstacle * METRES_PER_STEP;
            boolean isPassed = wanted.obstacle == 0 || reach.position() > place;
            obstacle = isPassed ? Double.POSITIVE_INFINITY : place;
        }
        if (wanted.jam != disturbed.jam) {
            disturbed.jam = wanted.jam;
            double place = wanted.jam * METRES_PER_STEP;
            if (wanted.jam == 0 || reach.position() < place) {
                jam.remove();
            } else {
                jam.put(place);
            }
        }
        if (wanted.supplyCut != disturbed.supplyCut) {
            disturbed.supplyCut = wanted.supplyCut;
            supplyCutMicros = wanted.supplyCut == 0 ? 0 : SUPPLY_CUT_MICROS;
        }
        reach.drag(wanted.reachDrag / TENTHS);
        lift.drag(wanted.liftDrag / TENTHS);
        supply.weaken(wanted.batteryWear / HUNDREDTHS);
        base.push(wanted.push * METRES_PER_STEP);
        base.visitor(wanted.visitor * METRES_PER_STEP);
        disturbed.gripperHand = wanted.gripperHand;
        disturbed.throatHand = wanted.throatHand;
        disturbed.rackEmpty = wanted.rackEmpty;
        disturbed.potStays = wanted.potStays;
        disturbed.potSlips = wanted.potSlips;
        disturbed.potOffset = wanted.potOffset;
        setStops();
    }

    /** Pots that stand on their pegs, for who wants to know what really happened. */
    int potsOnPegs() {
        return pot.onPegs();
    }

    /** Pots that fell. */
    int potsLost() {
        return pot.lost();
    }

    @Override
    public int reachPosition() {
        return ENCODER.read(reach.position());
    }

    @Override
    public int reachCurrent() {
        return currentSample;
    }

    @Override
    public int gripperBeam() {
        boolean broken = disturbed.gripperHand != 0
                || pot.breaksGripperBeam(reach.position(), lift.position())
                || (pot.place() == Pot.Place.RACK && isPotBetweenFingers());
        return broken ? 1 : 0;
    }

    @Override
    public int throatBeam() {
        return disturbed.throatHand != 0 || pot.breaksThroatBeam(reach.position(), lift.position()) ? 1 : 0;
    }

    @Override
    public int liftPosition() {
        return ENCODER.read(lift.position());
    }

    @Override
    public int liftCurrent() {
        return liftCurrentSample;
    }

    @Override
    public int basePosition() {
        return ENCODER.read(base.position());
    }

    @Override
    public int baseHeading() {
        return headingSample;
    }

    @Override
    public int frontDistance() {
        return frontSample;
    }

    @Override
    public int batteryVoltage() {
        return voltageSample;
    }

    @Override
    public void reach(int drive) {
        reach.drive(drive / DRIVE_STEPS);
    }

    @Override
    public void gripper(int closed) {
        reach.close(closed != 0);
    }

    @Override
    public void lift(int drive) {
        lift.drive(drive / DRIVE_STEPS);
    }

    @Override
    public void latch(int closed) {
        lift.latch(closed != 0);
    }

    @Override
    public void base(int forward, int steer) {
        base.drive(forward / DRIVE_STEPS, steer / DRIVE_STEPS);
    }
}
