package snagbench.virtualrig.shuttle;

/** The pot that is under way, and what became of those before it. The rack feeds the next one by its own weight. */
final class Pot {
    /** Where a pot can be. */
    enum Place {
        RACK,
        FINGERS,
        /** In the throat with nobody holding it. */
        THROAT,
        LIFT
    }

    /** From the pot's middle to where the throat's beam is no longer broken, as the arm's place. */
    private static final double THROAT_BEAM = 0.075;
    /** The throat's rim, as the arm's place when the pot comes to it. */
    private static final double THROAT_RIM = 0.095;
    /** Room on each side of the pot in the throat. */
    private static final double CLEARANCE = 0.008;
    /** In the throat as far as lift and fingers need it. */
    private static final double IN_THROAT = 0.02;

    private static final double OUT_OF_THROAT = 0.05;

    private Place place = Place.RACK;
    private double offset;
    private int onPegs;
    private int lost;

    void reset() {
        place = Place.RACK;
        offset = 0;
        onPegs = 0;
        lost = 0;
    }

    Place place() {
        return place;
    }

    /** Gripped, so far off the middle. */
    void gripped(double offMetres) {
        place = Place.FINGERS;
        offset = offMetres;
    }

    /** The fingers opened round it. */
    void letGo(double arm, boolean isAtRack) {
        if (Math.abs(arm) <= IN_THROAT) {
            place = Place.THROAT;
        } else if (isAtRack) {
            place = Place.RACK;
        } else {
            lose();
        }
    }

    void taken() {
        place = Place.LIFT;
    }

    void set() {
        place = Place.RACK;
        onPegs++;
    }

    void lose() {
        place = Place.RACK;
        lost++;
    }

    void centre() {
        offset = 0;
    }

    /** It does not fit through the throat as it sits in the fingers. */
    boolean catchesAtRim() {
        return place == Place.FINGERS && Math.abs(offset) > CLEARANCE;
    }

    static double rim() {
        return THROAT_RIM;
    }

    boolean isInThroat(double arm) {
        return place == Place.THROAT || (place == Place.FINGERS && Math.abs(arm) <= IN_THROAT);
    }

    boolean breaksThroatBeam(double arm, double lift) {
        return switch (place) {
            case RACK -> false;
            case FINGERS -> arm <= THROAT_BEAM;
            case THROAT -> true;
            case LIFT -> lift < OUT_OF_THROAT;
        };
    }

    boolean breaksGripperBeam(double arm, double lift) {
        return switch (place) {
            case RACK -> false;
            case FINGERS -> true;
            case THROAT -> arm <= IN_THROAT;
            case LIFT -> lift < OUT_OF_THROAT && arm <= IN_THROAT;
        };
    }

    int onPegs() {
        return onPegs;
    }

    int lost() {
        return lost;
    }
}
